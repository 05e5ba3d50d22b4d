using ParticleLims.Laboratory.Dispositions;
using ParticleLims.Laboratory.Investigations;
using ParticleLims.Laboratory.Lots;
using ParticleLims.Laboratory.People;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Review;
using ParticleLims.Laboratory.Runs;

namespace ParticleLims.Laboratory.Tests.Dispositions;

public sealed class DecisionTests
{
    [Theory]
    [EachDatabase]
    public async Task A_release_names_everything_that_stands_in_its_way(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        var empty = await small.BookInLotAsync(small.Calcite);
        (await laboratory.ShouldRefuseAsync("blocked", () => small.Desk.ReleaseAsync(empty))).Message.ShouldContain("No sample of this lot has been booked in.");

        var lot = await small.BookInAsync(small.Starch);
        (await laboratory.ShouldRefuseAsync("blocked", () => small.Desk.ReleaseAsync(lot.Id))).Message.ShouldContain("not every replicate is in");
        await lot.SubmitAsync(Powder.Starch);
        (await laboratory.ShouldRefuseAsync("blocked", () => small.Desk.ReleaseAsync(lot.Id))).Message.ShouldContain("not every run has been accepted by a second person");

        var bad = await (await small.BookInAsync(small.Calcite)).SubmitAsync(Powder.CoarseCalcite);
        await small.Desk.AcceptAsync(bad.RunId);
        (await laboratory.ShouldRefuseAsync("blocked", () => small.Desk.ReleaseAsync(bad.Id))).Message
            .ShouldBe($"Lot {(await small.Desk.EvidenceAsync(bad.Id)).Lot.Number} cannot be released. Investigation I-26-00001 is open. Passing 45 µm does not conform (92.0 %).");
    }

    [Theory]
    [EachDatabase]
    public async Task What_was_shown_is_what_is_signed(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        var lot = await (await small.BookInAsync(small.Calcite)).SubmitAsync(Powder.Calcite);
        await lot.AcceptAsync();
        var shown = await small.Desk.EvidenceAsync(lot.Id);
        await small.BookInSampleAsync(lot.Id, lot.Method);
        var proof = await small.ProofAsync(small.People.QualityManager);
        await laboratory.ShouldRefuseAsync("changed-meanwhile", () => small.Get<LotDecision>().ReleaseAsync(small.People.QualityManager.Actor, lot.Id, proof, shown.ContentHash, default));

        await small.Desk.RejectAsync(lot.Id, "Another sample came, and it is wet");
        await using var data = laboratory.Data();
        var signature = data.Signatures.Single(one => one.SubjectId == lot.Id);
        signature.ContentHash.ShouldBe(RecordChain.HashOf(signature.Content));
        (signature.PrintedName, signature.Function, signature.Meaning).ShouldBe(("Quinn Ashby", "Quality manager", "rejected"));
    }

    [Theory]
    [EachDatabase]
    public async Task The_evidence_of_several_samples_reads_the_same_each_time(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        var lot = await small.BookInLotAsync(small.Calcite);
        for (var sample = 0; sample < 6; sample++)
        {
            await small.BookInSampleAsync(lot, small.Calcite);
        }

        (await small.Desk.EvidenceAsync(lot)).Results.Select(result => result.SampleCode).ShouldBe(["S-26-00001", "S-26-00002", "S-26-00003", "S-26-00004", "S-26-00005", "S-26-00006"]);
    }

    [Theory]
    [EachDatabase]
    public async Task A_lot_is_decided_once(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        var lot = await (await small.BookInAsync(small.Calcite)).ReleaseAsync(Powder.Calcite);
        await laboratory.ShouldRefuseAsync("lot-decided", () => small.Desk.HoldAsync(lot.Id));
        await laboratory.ShouldRefuseAsync("lot-decided", () => small.Desk.RejectAsync(lot.Id));
        await laboratory.ShouldRefuseAsync("lot-decided", () => small.Desk.ReleaseAsync(lot.Id));
        await laboratory.ShouldRefuseAsync("lot-decided", () => small.Desk.ProposeAsync(lot.Id));
        await laboratory.ShouldRefuseAsync("lot-closed", () => small.BookInSampleAsync(lot.Id, lot.Method));
        await laboratory.ShouldRefuseAsync("lot-closed", () => small.Desk.InvalidateAsync(lot.RunId));
    }

    [Theory]
    [EachDatabase]
    public async Task A_held_lot_is_released_when_nothing_stands_in_the_way_any_more(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        var lot = await (await small.BookInAsync(small.Calcite)).SubmitAsync(Powder.Calcite);
        await small.Desk.HoldAsync(lot.Id);
        await lot.AcceptAsync();
        (await small.Desk.EvidenceAsync(lot.Id)).Lot.State.ShouldBe(LotState.OnHold);
        await small.Desk.ReleaseAsync(lot.Id);
        (await small.Desk.EvidenceAsync(lot.Id)).Dispositions.Select(one => one.Decision).ShouldBe([LotState.OnHold, LotState.Released]);
    }

    [Theory]
    [EachDatabase]
    public async Task A_replicate_given_up_while_the_lot_is_held_is_still_missing(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        var lot = await small.BookInAsync(small.Starch);
        await small.Bench().CarryOutAsync(lot.Sample.RunIds[0], lot.Method, Powder.Starch);
        await small.Desk.AcceptAsync(lot.Sample.RunIds[0]);
        await small.Desk.HoldAsync(lot.Id);
        await small.Desk.AbandonAsync(lot.Sample.RunIds[1]);
        (await laboratory.ShouldRefuseAsync("blocked", () => small.Desk.ReleaseAsync(lot.Id))).Message.ShouldContain("not every replicate is in");
        (await small.Desk.EvidenceAsync(lot.Id)).AllRuns.ShouldContain(run => run.ReplacesRunId == lot.Sample.RunIds[1] && run.State == RunState.Planned, "it is planned anew");
    }

    [Theory]
    [EachDatabase]
    public async Task A_concession_is_proposed_by_one_and_granted_by_another(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        var lot = await (await small.BookInAsync(small.Calcite)).SubmitAsync(Powder.CoarseCalcite);
        await lot.AcceptAsync();
        await small.Desk.ConcludeAsync(lot.Id, InvestigationConclusion.Confirmed);
        (await laboratory.ShouldRefuseAsync("blocked", () => small.Desk.ConcedeAsync(lot.Id))).Message.ShouldContain("Nobody has proposed a concession");
        await small.Desk.ProposeAsync(lot.Id);
        await small.Desk.ConcedeAsync(lot.Id);
        (await small.Desk.EvidenceAsync(lot.Id)).Lot.State.ShouldBe(LotState.ReleasedByConcession);
        await small.Desk.IssueAsync(lot.Id, lot.Sample.Id);
    }

    [Theory]
    [EachDatabase]
    public async Task A_lot_that_keeps_every_limit_has_nothing_to_concede(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        var proposedEarly = await small.BookInAsync(small.Calcite);
        await small.Desk.ProposeAsync(proposedEarly.Id);
        foreach (var lot in (TestLot[])[proposedEarly, await small.BookInAsync(small.Calcite)])
        {
            await (await lot.SubmitAsync(Powder.Calcite)).AcceptAsync();
            (await laboratory.ShouldRefuseAsync("nothing-to-concede", () => small.Desk.ProposeAsync(lot.Id))).Message.ShouldContain("keeps every limit");
            (await laboratory.ShouldRefuseAsync("blocked", () => small.Desk.ConcedeAsync(lot.Id))).Message.ShouldContain("keeps every limit");
            await small.Desk.ReleaseAsync(lot.Id);
        }
    }

    [Theory]
    [EachDatabase]
    public async Task Nobody_grants_the_concession_that_they_proposed(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        var lot = await (await small.BookInAsync(small.Calcite)).SubmitAsync(Powder.CoarseCalcite);
        await lot.AcceptAsync();
        await small.Desk.ConcludeAsync(lot.Id, InvestigationConclusion.Confirmed);
        await small.GiveRolesAsync(small.People.LaboratoryManager, Role.LaboratoryManager, Role.QualityManager);
        await small.Desk.ProposeAsync(lot.Id);
        (await laboratory.ShouldRefuseAsync("own-work", () => small.Desk.ConcedeAsync(lot.Id, small.People.LaboratoryManager))).Message.ShouldContain("proposed this concession");
    }

    [Theory]
    [EachDatabase]
    public async Task A_proposal_that_came_meanwhile_changes_what_is_signed(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        var lot = await small.BookInAsync(small.Calcite);
        var before = (await small.Desk.EvidenceAsync(lot.Id)).ContentHash;
        await small.Desk.ProposeAsync(lot.Id);
        (await small.Desk.EvidenceAsync(lot.Id)).ContentHash.ShouldNotBe(before);
    }

    [Theory]
    [EachDatabase]
    public async Task Nobody_releases_what_they_worked_on_or_reviewed(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        var lot = await (await small.BookInAsync(small.Calcite)).SubmitAsync(Powder.Calcite);
        await lot.AcceptAsync();
        foreach (var person in (TestPerson[])[small.People.Technician, small.People.Reviewer])
        {
            await small.GiveRolesAsync(person, Role.Reviewer, Role.QualityManager);
            await laboratory.ShouldRefuseAsync("own-work", () => small.Desk.ReleaseAsync(lot.Id, person));
        }
    }

    [Theory]
    [EachDatabase]
    public async Task A_one_person_laboratory_may_and_each_signature_says_so(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        await small.SwitchOnePersonAsync();
        var all = (Role[])[Role.Technician, Role.Reviewer, Role.QualityManager];
        await small.GiveRolesAsync(small.People.Technician, all);
        var lot = await (await small.BookInAsync(small.Calcite)).SubmitAsync(Powder.Calcite);
        await small.Desk.AcceptAsync(lot.RunId, small.People.Technician);
        await small.Desk.ReleaseAsync(lot.Id, small.People.Technician);
        await using var data = laboratory.Data();
        data.Signatures.Where(one => one.SubjectId == lot.RunId || one.SubjectId == lot.Id).Select(one => one.Meaning).ToList()
            .ShouldBe(["reviewed (one-person laboratory)", "released (one-person laboratory)"], ignoreOrder: true);
    }

    [Theory]
    [EachDatabase]
    public async Task A_password_given_again_is_good_for_one_signature_of_that_person(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        var first = await (await small.BookInAsync(small.Calcite)).SubmitAsync(Powder.Calcite);
        var second = await (await small.BookInAsync(small.Calcite)).SubmitAsync(Powder.Calcite);
        var review = small.Get<RunReview>();
        var proof = await small.ProofAsync(small.People.Reviewer);
        await small.Get<RunChanges>().OpenAsync(small.People.Reviewer.Actor, first.RunId, default);
        await small.Get<RunChanges>().OpenAsync(small.People.Reviewer.Actor, second.RunId, default);
        await review.AcceptAsync(small.People.Reviewer.Actor, first.RunId, proof, (await small.Bench().ViewAsync(first.RunId)).Run.Version, default);
        var version = (await small.Bench().ViewAsync(second.RunId)).Run.Version;
        await laboratory.ShouldRefuseAsync("secret-not-proved", () => review.AcceptAsync(small.People.Reviewer.Actor, second.RunId, proof, version, default));
        var others = await small.ProofAsync(small.People.QualityManager);
        await laboratory.ShouldRefuseAsync("secret-not-proved", () => review.AcceptAsync(small.People.Reviewer.Actor, second.RunId, others, version, default));
    }
}
