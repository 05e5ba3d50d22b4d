using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.EquipmentFailures;
using ParticleLims.Laboratory.Investigations;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Runs;
using ParticleLims.Laboratory.Samples;
using ParticleLims.Laboratory.Sieves;

namespace ParticleLims.Laboratory.Tests.Record;

/// <summary>A signature is bound to what was signed: where that is not so any more, every view says "changed since signed", and nothing is released on it.</summary>
public sealed class SignedContentTests
{
    [Theory]
    [EachDatabase]
    public async Task What_was_left_alone_is_as_signed_whatever_kind_it_is(DatabaseKind kind)
    {
        await using var laboratory = await WorkedAsync(kind);
        var seen = await SeenAsync(laboratory);
        seen.Where(one => one.Seen.Unchanged == false).ShouldBeEmpty();
        seen.Where(one => one.Seen.Unchanged == true).Select(one => one.Kind).Distinct().Order().ShouldBe(
            [nameof(AuthorisationOverride), nameof(EquipmentFailure), nameof(Investigation), "Lot", "Method", "Run", "Sample", "Specification"]);
        seen.Where(one => one.Seen.Unchanged is null).ShouldBeEmpty("every kind that was signed here can be compared");
    }

    [Theory]
    [EachDatabase("UPDATE weighings SET mass = mass + 1000", "Run", "reviewed")]
    [EachDatabase("UPDATE evaluations SET result = result || ' '", "Run", "reviewed")]
    [EachDatabase("UPDATE runs SET state_reason = 'another cause' WHERE state = 'Invalidated'", "Run", "invalidated")]
    [EachDatabase("UPDATE fitness_overrides SET reason = 'made up later'", "Run", "allowed for one run")]
    [EachDatabase("UPDATE authorisation_overrides SET reason = 'made up later'", "AuthorisationOverride", "allowed for one run")]
    [EachDatabase("UPDATE method_versions SET seconds = 1", "Method", "approved")]
    [EachDatabase("UPDATE method_sieves SET aperture = aperture + 1", "Method", "approved")]
    [EachDatabase("UPDATE limits SET lower = lower + 1 WHERE lower IS NOT NULL", "Specification", "approved")]
    [EachDatabase("UPDATE limits SET lower_alert = lower + 1000 WHERE lower IS NOT NULL", "Specification", "approved")]
    [EachDatabase("UPDATE specification_versions SET sampling_increments = 1 WHERE sampling_increments = 5", "Specification", "approved")]
    [EachDatabase("UPDATE sampling_acceptances SET reason = 'made up later'", "Sample", "accepted as sampled")]
    [EachDatabase("UPDATE samples SET sampling_lacks = NULL WHERE sampling_lacks IS NOT NULL", "Sample", "accepted as sampled")]
    [EachDatabase("UPDATE lots SET number = number || 'X'", "Lot", "released")]
    [EachDatabase("UPDATE limits SET lower = lower + 1 WHERE lower IS NOT NULL", "Lot", "rejected")]
    [EachDatabase("UPDATE investigation_notes SET words = 'Nothing was looked at'", "Investigation", "concluded")]
    [EachDatabase("UPDATE investigations SET conclusion_words = 'As it suits'", "Investigation", "concluded")]
    [EachDatabase("UPDATE touched_lots SET words = 'It suits better so'", "EquipmentFailure", "closed")]
    [EachDatabase("UPDATE signatures SET content = content || ' '", "Lot", "released")]
    public async Task What_was_changed_past_the_record_says_so(DatabaseKind kind, string attack, string subject, string meaning)
    {
        await using var laboratory = await WorkedAsync(kind);
        await AttackAsync(laboratory, kind, attack);
        (await SeenAsync(laboratory)).ShouldContain(one => one.Kind == subject && one.Seen.Meaning == meaning && one.Seen.Unchanged == false, attack);
    }

    [Theory]
    [EachDatabase]
    public async Task A_signature_pasted_under_another_run_does_not_hold_there(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        var (signed, other) = (await (await small.BookInAsync(small.Calcite)).SubmitAsync(Powder.Calcite), await (await small.BookInAsync(small.Calcite)).SubmitAsync(Powder.Calcite));
        await signed.AcceptAsync();
        var literal = kind == DatabaseKind.Sqlite ? other.RunId.ToString().ToUpperInvariant() : other.RunId.ToString();
        await AttackAsync(laboratory, kind, $"UPDATE signatures SET subject_id = '{literal}' WHERE meaning = 'reviewed'");
        (await laboratory.Get<SignatureReading>().OfAsync(small.People.QualityManager.Actor, other.RunId, default)).ShouldHaveSingleItem().Unchanged.ShouldBe(false);
    }

    [Theory]
    [EachDatabase("UPDATE weighings SET mass = mass + 1000", "Run R-26-00001 was changed since signed: Ruth Vale signed “reviewed”")]
    [EachDatabase("UPDATE method_versions SET seconds = 1", "Method M-GC-45 was changed since signed: Quinn Ashby signed “approved”")]
    [EachDatabase("UPDATE limits SET printed = NOT printed", "Specification SP-GC-45 was changed since signed: Quinn Ashby signed “approved”")]
    public async Task Nothing_is_released_on_what_was_changed_since_it_was_signed(DatabaseKind kind, string attack, string words)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        var lot = await (await small.BookInAsync(small.Calcite)).SubmitAsync(Powder.Calcite);
        await lot.AcceptAsync();
        (await small.Desk.EvidenceAsync(lot.Id)).ReleaseBlockers.ShouldBeEmpty();
        await AttackAsync(laboratory, kind, attack);
        (await laboratory.ShouldRefuseAsync("blocked", () => small.Desk.ReleaseAsync(lot.Id))).Message.ShouldContain(words);
    }

    [Theory]
    [InlineData("""{"a":1.50,"b":[{"x":1},{"x":2}],"c":null}""", """{"a":1.5,"b":[{"x":2},{"x":1}],"c":null,"later":"a new fact"}""", true)]
    [InlineData("""{"a":1.5}""", """{"a":1.51}""", false)]
    [InlineData("""{"b":[1]}""", """{"b":[1,1]}""", false)]
    [InlineData("""{"b":[1,1]}""", """{"b":[1,2]}""", false)]
    [InlineData("""{"a":"1"}""", """{"a":1}""", false)]
    [InlineData("""{"a":1}""", """{}""", false)]
    [InlineData("Case E-1: torn. all told", "Case E-1: torn. nobody told", false)]
    [InlineData("""{"a":1}""", "", false)]
    public void Numbers_count_by_value_lists_without_order_and_new_facts_do_not_count(string then, string now, bool same) => SignedContent.IsSame(then, now).ShouldBe(same);

    private static async Task<List<(string Kind, SignatureSeen Seen)>> SeenAsync(OpenedSmallLaboratory laboratory)
    {
        await using var data = laboratory.Data();
        var seen = new List<(string, SignatureSeen)>();
        foreach (var subject in await data.Signatures.Select(one => new { one.SubjectKind, one.SubjectId }).Distinct().ToListAsync())
        {
            seen.AddRange((await laboratory.Get<SignatureReading>().OfAsync(laboratory.Small.People.Reviewer.Actor, subject.SubjectId, default)).Select(one => (subject.SubjectKind, one)));
        }

        return seen;
    }

    // A laboratory in which everything that can be signed was: approvals, an allowed person, an allowed sieve, reviews, an invalidation, an investigation, decisions, a case.
    private static async Task<OpenedSmallLaboratory> WorkedAsync(DatabaseKind kind)
    {
        var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (small, manager) = (laboratory.Small, laboratory.Small.People.QualityManager);
        var asking = await small.WithMethodAsync(small.Calcite, draft => draft with { AuthorisationNeeded = true });
        var (good, bad) = (await small.BookInAsync(asking), await small.BookInAsync(asking));
        await AllowPersonAsync(laboratory, good.RunId);
        await AllowPersonAsync(laboratory, bad.RunId);
        laboratory.Running.Clock.Advance(TimeSpan.FromMinutes(1));
        var sieve = asking.SieveIds[0];
        await laboratory.Get<SieveCare>().PlanAsync(small.People.LaboratoryManager.Actor, sieve, new SieveCarePlan(365, 1, SieveCarePlan.UsualTareScatter), "Once only", 2, default);
        await good.ReleaseAsync(Powder.Calcite);
        await laboratory.Get<FitnessOverriding>().AllowAsync(manager.Actor, bad.RunId, sieve, "Nothing else to sieve with", await small.ProofAsync(manager), default);
        await bad.SubmitAsync(Powder.CoarseCalcite);
        var open = (await small.Desk.InvestigationsAsync(bad.Id)).Single();
        await laboratory.Get<InvestigationWork>().NoteAsync(small.People.Reviewer.Actor, open.Id, "Sieves whole, balance checked", null, default);
        await small.Desk.ConcludeAsync(bad.Id, InvestigationConclusion.Confirmed);
        await bad.AcceptAsync();
        await small.Desk.RejectAsync(bad.Id);
        var undone = await (await small.BookInAsync(small.Starch)).SubmitAsync(Powder.Starch);
        await small.Desk.InvalidateAsync(undone.RunId);
        await CloseCaseAsync(laboratory, small.Calcite.SieveIds[1]);
        var few = await small.Get<SampleReception>().BookInAsync(small.People.Technician.Actor, small.NewSample(await small.BookInLotAsync(small.Starch), small.Starch).Arriving(sample => sample with { Increments = 3 }), null, default);
        await laboratory.Get<SamplingAccepting>().AcceptAsync(manager.Actor, few.Id, "Three cross all of the silo", await small.ProofAsync(manager), default);
        return laboratory;
    }

    private static async Task AllowPersonAsync(OpenedSmallLaboratory laboratory, Guid runId)
    {
        var (small, manager) = (laboratory.Small, laboratory.Small.People.QualityManager);
        await laboratory.Get<AuthorisationOverriding>().AllowAsync(manager.Actor, runId, small.People.Technician.Id, "Everybody else is ill", await small.ProofAsync(manager), default);
    }

    private static async Task CloseCaseAsync(OpenedSmallLaboratory laboratory, Guid sieveId)
    {
        var (small, manager, failing) = (laboratory.Small, laboratory.Small.People.QualityManager, laboratory.Get<EquipmentFailing>());
        await using var data = laboratory.Data();
        var version = (await data.Set<TestSieve>().SingleAsync(sieve => sieve.Id == sieveId)).Version;
        var id = await failing.MarkAsync<TestSieve>(small.People.LaboratoryManager.Actor, sieveId, "A tear at the rim", RunningLaboratory.FirstMorning, version, null, default);
        var found = (await laboratory.Get<EquipmentFailureReading>().FindAsync(manager.Actor, id, default))!;
        foreach (var (lot, index) in found.Lots.Select((lot, index) => (lot, index)))
        {
            await failing.DecideAsync(manager.Actor, id, lot.LotId, TouchedLotDecision.ResultsStand, "The tear is outside the cloth", index + 1, default);
        }

        await failing.CloseAsync(manager.Actor, id, "Nothing was touched", await small.ProofAsync(manager), found.Lots.Count + 1, default);
    }

    private static async Task AttackAsync(OpenedSmallLaboratory laboratory, DatabaseKind kind, string attack)
    {
        await using var data = laboratory.Data();
        await RowVerifierTests.DropTriggersAsync(data, kind);
        (await data.Database.ExecuteSqlRawAsync(attack)).ShouldBeGreaterThan(0, attack);
    }
}
