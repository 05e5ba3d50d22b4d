using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Certificates;
using ParticleLims.Laboratory.Demonstration;
using ParticleLims.Laboratory.Dispositions;
using ParticleLims.Laboratory.Documents;
using ParticleLims.Laboratory.Equipment;
using ParticleLims.Laboratory.Investigations;
using ParticleLims.Laboratory.Lots;
using ParticleLims.Laboratory.Methods;
using ParticleLims.Laboratory.People;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Review;
using ParticleLims.Laboratory.Runs;
using ParticleLims.Laboratory.Sieves;
using ParticleLims.Laboratory.Specifications;

namespace ParticleLims.Laboratory.Tests.Demonstration;

public sealed class DemonstrationLaboratoryTests(MadeLaboratories made) : IClassFixture<MadeLaboratories>
{
    [Theory]
    [InlineData(DatabaseKind.Sqlite)]
    [InlineData(DatabaseKind.Postgres)]
    public async Task The_record_of_the_history_holds_and_its_times_go_forward(DatabaseKind kind)
    {
        var laboratory = (await made.OnAsync(kind)).Running;
        await using var data = laboratory.Data();
        var verification = await RecordVerifier.VerifyAsync(data, null, default);
        verification.Fault.ShouldBeNull();
        verification.Events.ShouldBeGreaterThan(500);
        var times = await data.Events.OrderBy(one => one.Sequence).Where(one => one.Code != "storage.migrate" && one.Code != "people.sign-on").Select(one => one.At).ToListAsync();
        times.ShouldBe(times.Order());
        times[0].ShouldBeInRange(RunningLaboratory.FirstMorning.AddDays(-31), RunningLaboratory.FirstMorning.AddDays(-29));
        times[^1].ShouldBe(RunningLaboratory.FirstMorning);
    }

    [Theory]
    [InlineData(DatabaseKind.Sqlite)]
    [InlineData(DatabaseKind.Postgres)]
    public async Task Every_stored_evaluation_gives_the_same_bits_again(DatabaseKind kind)
    {
        await using var data = (await made.OnAsync(kind)).Running.Data();
        var evaluations = await data.Evaluations.AsNoTracking().ToListAsync();
        evaluations.Count.ShouldBeGreaterThan(15);
        evaluations.ShouldAllBe(stored => OpenedEvaluation.Of(stored).SameBits);
    }

    [Theory]
    [InlineData(DatabaseKind.Sqlite)]
    [InlineData(DatabaseKind.Postgres)]
    public async Task One_lot_was_confirmed_out_one_conceded_one_had_a_laboratory_cause_and_one_is_open(DatabaseKind kind)
    {
        await using var data = (await made.OnAsync(kind)).Running.Data();
        var investigations = await data.Investigations.AsNoTracking().ToListAsync();
        var states = (await data.Lots.AsNoTracking().ToListAsync()).ToDictionary(lot => lot.Id, lot => lot.State);
        investigations.Count.ShouldBe(5);
        var alert = investigations.Single(one => one.Kind == InvestigationKind.OutOfTrend);
        alert.What.ShouldStartWith("Alert limit: D50 is ");
        (alert.Conclusion, states[alert.LotId]).ShouldBe((InvestigationConclusion.TrendExplained, LotState.Released));
        investigations.Where(one => one.Conclusion == InvestigationConclusion.Confirmed).Select(one => states[one.LotId]).ShouldBe([LotState.Rejected, LotState.ReleasedByConcession], ignoreOrder: true);
        states[investigations.Single(one => one.Conclusion == InvestigationConclusion.LaboratoryCause).LotId].ShouldBe(LotState.Released);
        states[investigations.Single(one => one.State == InvestigationState.LaboratoryPhase).LotId].ShouldBe(LotState.OnHold);
        var proposal = await data.ConcessionProposals.SingleAsync();
        (await data.Dispositions.SingleAsync(one => one.Decision == LotState.ReleasedByConcession)).PersonId.ShouldNotBe(proposal.ProposedById);
    }

    [Theory]
    [InlineData(DatabaseKind.Sqlite)]
    [InlineData(DatabaseKind.Postgres)]
    public async Task Work_of_every_kind_is_left_at_the_end(DatabaseKind kind)
    {
        await using var data = (await made.OnAsync(kind)).Running.Data();
        var runs = await data.Runs.AsNoTracking().Include(run => run.Weighings).ToListAsync();
        var lots = await data.Lots.AsNoTracking().ToListAsync();
        runs.Count(run => run.State == RunState.Planned).ShouldBeGreaterThanOrEqualTo(3);
        var going = runs.Single(run => run.State == RunState.InProgress);
        going.Weighings.Count.ShouldBeInRange(3, 9);
        (RunningLaboratory.FirstMorning - going.StartedAt!.Value).ShouldBeLessThan(TimeSpan.FromMinutes(30));
        runs.Count(run => run.State == RunState.Submitted).ShouldBeGreaterThanOrEqualTo(3);
        runs.Count(run => run.State == RunState.Submitted && run.Findings > 0).ShouldBeGreaterThanOrEqualTo(2);
        lots.Count(lot => lot.State == LotState.AwaitingDisposition).ShouldBe(2);
        lots.Count(lot => lot.State == LotState.OnHold).ShouldBe(1);
        lots.Count(lot => lot.State == LotState.AwaitingResults).ShouldBe(6);
        lots.Count(lot => lot.State == LotState.Released).ShouldBeGreaterThan(10);
    }

    [Theory]
    [InlineData(DatabaseKind.Sqlite)]
    [InlineData(DatabaseKind.Postgres)]
    public async Task Mistakes_stay_visible_abandoned_invalidated_returned_weighed_again_withdrawn(DatabaseKind kind)
    {
        await using var data = (await made.OnAsync(kind)).Running.Data();
        (await data.Runs.CountAsync(run => run.State == RunState.Abandoned)).ShouldBe(1);
        (await data.Runs.CountAsync(run => run.State == RunState.Invalidated)).ShouldBe(1);
        (await data.Reviews.CountAsync(entry => entry.Outcome == ReviewOutcome.Returned)).ShouldBe(1);
        (await data.Weighings.CountAsync(weighing => weighing.SupersedesId != null && weighing.Reason != null)).ShouldBeGreaterThanOrEqualTo(2);
        (await data.Certificates.CountAsync(one => one.State == CertificateState.Withdrawn)).ShouldBe(1);
        (await data.Certificates.CountAsync(one => one.State == CertificateState.Issued)).ShouldBeGreaterThan(8);
    }

    [Theory]
    [InlineData(DatabaseKind.Sqlite)]
    [InlineData(DatabaseKind.Postgres)]
    public async Task The_blinded_sieve_shows_by_its_tare_and_equipment_has_every_state(DatabaseKind kind)
    {
        var laboratory = await made.OnAsync(kind);
        await using var data = laboratory.Running.Data();
        var sieves = await data.TestSieves.AsNoTracking().ToListAsync();
        sieves.Select(sieve => sieve.State).Distinct().ShouldBe(Enum.GetValues<EquipmentState>(), ignoreOrder: true);
        var blinded = sieves.Single(sieve => sieve is { State: EquipmentState.OutOfService, Serial: "TS-045-1" });
        var worn = sieves.Single(sieve => sieve is { State: EquipmentState.OutOfService, Serial: not "TS-045-1" });
        var checks = await data.ReferenceChecks.Where(check => check.SieveId == worn.Id).OrderBy(check => check.At).ToListAsync();
        checks.Select(check => check.Passed).ShouldBe([true, true, false]);
        checks[^1].Words.ShouldContain("the apertures have widened");
        var tares = await laboratory.Running.Get<TareHistory>().OfAsync(await laboratory.ActorAsync("technician.1"), blinded.Id, default);
        (tares[^1].Mass - tares[0].Mass).Grams.ShouldBeGreaterThan(0.004m);
        var found = await data.Set<SieveInspection>().SingleAsync(one => one.SieveId == blinded.Id);
        found.Faults.ShouldBe(SieveFaults.BlockedApertures);
        found.SignalThen.ShouldNotBeNull().ShouldContain("The sieve gained");
        var today = DateOnly.FromDateTime(RunningLaboratory.FirstMorning.UtcDateTime);
        sieves.Count(sieve => sieve.State == EquipmentState.InService && sieve.InspectionDueOn < today).ShouldBe(1);
        sieves.Count(sieve => sieve.State == EquipmentState.InService && sieve.InspectionDueOn >= today && sieve.InspectionDueOn < today.AddDays(30)).ShouldBe(3);
        (await data.Set<Laboratory.Balances.Balance>().Select(balance => balance.State).ToListAsync()).ShouldBe([EquipmentState.InService, EquipmentState.OutOfService], ignoreOrder: true);
    }

    [Theory]
    [InlineData(DatabaseKind.Sqlite)]
    [InlineData(DatabaseKind.Postgres)]
    public async Task The_first_sieve_of_each_aperture_came_with_a_document_that_conforms_and_everything_names_an_invented_maker(DatabaseKind kind)
    {
        var laboratory = await made.OnAsync(kind);
        await using var data = laboratory.Running.Data();
        var measured = await data.ApertureMeasurements.AsNoTracking().ToListAsync();
        var sieves = await data.TestSieves.AsNoTracking().ToListAsync();
        measured.Select(one => sieves.Single(sieve => sieve.Id == one.SieveId).Serial).ShouldBe(sieves.Select(sieve => sieve.Serial).Where(serial => serial.EndsWith("-1", StringComparison.Ordinal)), ignoreOrder: true);
        measured.ShouldAllBe(one => one.Conforms == true && one.MeanWarp < one.MeanWeft && one.WireNanometres > 0 && one.Points.Contains("is not judged", StringComparison.Ordinal));
        var files = await data.EquipmentDocuments.AsNoTracking().Where(document => document.Kind == EquipmentDocumentKind.InspectionCertificate).ToListAsync();
        files.Select(file => file.EquipmentId).ShouldBe(measured.Select(one => one.SieveId), ignoreOrder: true);
        files.ShouldAllBe(file => file.MediaType == "application/pdf");
        sieves.ShouldAllBe(sieve => sieve.Maker!.EndsWith("(invented)", StringComparison.Ordinal));
        (await data.Set<Laboratory.Balances.Balance>().Select(balance => balance.Software).Distinct().SingleAsync()).ShouldBe("1.04");
    }

    [Theory]
    [InlineData(DatabaseKind.Sqlite)]
    [InlineData(DatabaseKind.Postgres)]
    public async Task Documents_are_superseded_in_force_and_in_approval(DatabaseKind kind)
    {
        await using var data = (await made.OnAsync(kind)).Running.Data();
        DocumentState[] states = [DocumentState.Superseded, DocumentState.InForce, DocumentState.InApproval];
        (await data.MethodVersions.Select(version => version.State).Distinct().ToListAsync()).ShouldBe(states, ignoreOrder: true);
        (await data.SpecificationVersions.Select(version => version.State).Distinct().ToListAsync()).ShouldBe(states, ignoreOrder: true);
        (await data.Specifications.CountAsync(specification => specification.CustomerId != null)).ShouldBe(1);
    }

    [Theory]
    [InlineData(DatabaseKind.Sqlite)]
    [InlineData(DatabaseKind.Postgres)]
    public async Task Everybody_gets_in_with_the_password_of_the_access_and_the_token_is_known(DatabaseKind kind)
    {
        var laboratory = await made.OnAsync(kind);
        laboratory.Access.People.Select(person => person.Role).Distinct().ShouldBe(Enum.GetValues<Role>(), ignoreOrder: true);
        laboratory.Access.People.ShouldAllBe(person => person.Password.Length >= PasswordRules.Shortest && person.Pin.Length == 6);
        foreach (var person in laboratory.Access.People)
        {
            (await laboratory.ActorAsync(person.Key)).PersonId.ShouldNotBeNull();
        }

        var holder = await laboratory.Running.Get<ApiTokens>().RecogniseAsync(laboratory.Access.ApiToken, "program", default);
        holder!.Scopes.ShouldBe(Enum.GetValues<TokenScope>(), ignoreOrder: true);
    }

    [Theory]
    [InlineData(DatabaseKind.Sqlite)]
    [InlineData(DatabaseKind.Postgres)]
    public async Task A_laboratory_that_is_there_stays_as_it_is(DatabaseKind kind)
    {
        var laboratory = (await made.OnAsync(kind)).Running;
        (await laboratory.Get<DemonstrationLaboratory>().OpenAsync(MadeLaboratories.Month, null, default)).ShouldBeNull();
    }
}
