using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Certificates;
using ParticleLims.Laboratory.Investigations;
using ParticleLims.Laboratory.Lots;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Runs;

namespace ParticleLims.Laboratory.Tests.Dispositions;

/// <summary>What can be done with a decided lot, and what cannot.</summary>
public sealed class AfterDecisionTests
{
    [Theory]
    [EachDatabase]
    public async Task A_released_lot_is_opened_again_by_two_persons_and_its_certificates_are_suspended(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (small, desk) = (laboratory.Small, laboratory.Small.Desk);
        var lot = await (await small.BookInAsync(small.Calcite)).ReleaseAsync(Powder.Calcite);
        await desk.IssueAsync(lot.Id, lot.Sample.Id);
        await laboratory.ShouldRefuseAsync("reopening-not-proposed", () => desk.ReopenAsync(lot.Id));
        await small.GiveRolesAsync(small.People.QualityManager, ParticleLims.Laboratory.People.Role.QualityManager, ParticleLims.Laboratory.People.Role.LaboratoryManager);
        laboratory.Running.Clock.Advance(TimeSpan.FromMinutes(1));
        await desk.AskReopeningAsync(lot.Id, small.People.QualityManager);
        await laboratory.ShouldRefuseAsync("own-work", () => desk.ReopenAsync(lot.Id));
        laboratory.Running.Clock.Advance(TimeSpan.FromMinutes(1));
        await desk.AskReopeningAsync(lot.Id);
        await desk.ReopenAsync(lot.Id);
        (await desk.EvidenceAsync(lot.Id)).Lot.State.ShouldBe(LotState.OnHold);
        (await small.Get<CertificateShelf>().AllAsync(small.People.QualityManager.Actor, lot.Id, null, 10, default)).Single().State.ShouldBe(CertificateState.Suspended);
        laboratory.Running.Clock.Advance(TimeSpan.FromMinutes(1));
        await desk.RejectAsync(lot.Id);
        await laboratory.ShouldRefuseAsync("reopening-not-proposed", () => desk.ReopenAsync(lot.Id));
    }

    [Theory]
    [EachDatabase]
    public async Task A_lot_that_is_not_decided_is_not_opened_again(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var lot = await laboratory.Small.BookInLotAsync(laboratory.Small.Calcite);
        await laboratory.ShouldRefuseAsync("lot-undecided", () => laboratory.Small.Desk.AskReopeningAsync(lot));
    }

    [Theory]
    [EachDatabase]
    public async Task A_rejected_lot_is_reworked_into_one_with_all_tests_again_and_stays_rejected(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (small, desk) = (laboratory.Small, laboratory.Small.Desk);
        var lot = await (await (await small.BookInAsync(small.Calcite)).SubmitAsync(Powder.CoarseCalcite)).AcceptAsync();
        await laboratory.ShouldRefuseAsync("lot-not-rejected", () => desk.ReworkAsync(lot.Id, 10m));
        await desk.ConcludeAsync(lot.Id, InvestigationConclusion.Confirmed);
        await desk.RejectAsync(lot.Id);
        var whole = (await desk.EvidenceAsync(lot.Id)).Lot.QuantityKilograms;
        await laboratory.ShouldRefuseAsync("rework-quantity", () => desk.ReworkAsync(lot.Id, whole + 0.001m));
        var child = await desk.ReworkAsync(lot.Id, whole - 1m);
        await laboratory.ShouldRefuseAsync("rework-quantity", () => desk.ReworkAsync(lot.Id, 2m, "another"));
        await laboratory.ShouldRefuseAsync("lot-number-used", () => desk.ReworkAsync(lot.Id, 1m));
        var made = await desk.EvidenceAsync(child);
        (made.Lot.State, made.Lot.ReworkedFromId, made.Lot.QuantityKilograms).ShouldBe((LotState.AwaitingResults, lot.Id, whole - 1m));
        await laboratory.ShouldRefuseAsync("blocked", () => desk.ReleaseAsync(child));
        var sample = await small.BookInSampleAsync(child, small.Calcite);
        await small.Bench().CarryOutAsync(sample.RunIds[0], small.Calcite, Powder.Calcite);
        await desk.AcceptAsync(sample.RunIds[0]);
        await desk.ReleaseAsync(child);
        (await desk.EvidenceAsync(lot.Id)).Lot.State.ShouldBe(LotState.Rejected);
    }

    [Theory]
    [EachDatabase]
    public async Task A_run_that_was_begun_before_its_lot_was_rejected_may_be_finished_and_says_so_and_none_is_begun_after(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (small, desk, bench) = (laboratory.Small, laboratory.Small.Desk, laboratory.Small.Bench());
        var lot = await small.BookInAsync(small.Calcite);
        var second = await small.BookInSampleAsync(lot.Id, small.Calcite);
        await bench.StartAsync(lot.RunId, small.Calcite);
        (await bench.ViewAsync(lot.RunId)).LotDecidedWords.ShouldBeNull();
        await desk.RejectAsync(lot.Id, "The customer cancelled, and the powder was scrapped");
        (await bench.ViewAsync(lot.RunId)).LotDecidedWords!.ShouldContain("is rejected already. What was begun may be finished or abandoned with a reason; its result stays and is counted");
        await laboratory.ShouldRefuseAsync("lot-closed", () => bench.StartAsync(second.RunIds[0], small.Calcite));

        await bench.FinishAsync(lot.RunId, Powder.Calcite);
        await bench.SubmitAsync(lot.RunId);
        (await bench.ViewAsync(lot.RunId)).LotDecidedWords!.ShouldContain("This result stays and is counted");
        await desk.AcceptAsync(lot.RunId);
        var evidence = await desk.EvidenceAsync(lot.Id);
        (evidence.Lot.State, evidence.AllRuns.Single(run => run.Id == lot.RunId).State).ShouldBe((LotState.Rejected, RunState.Accepted));
    }

    [Theory]
    [EachDatabase]
    public async Task A_lot_is_released_as_a_whole_or_not_at_all(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (small, desk) = (laboratory.Small, laboratory.Small.Desk);
        var lot = await (await (await small.BookInAsync(small.Calcite)).SubmitAsync(Powder.Calcite)).AcceptAsync();
        var second = await small.BookInSampleAsync(lot.Id, small.Calcite);
        await laboratory.ShouldRefuseAsync("blocked", () => desk.ReleaseAsync(lot.Id));
        await small.Bench().CarryOutAsync(second.RunIds[0], small.Calcite, Powder.CoarseCalcite);
        await desk.AcceptAsync(second.RunIds[0]);
        await desk.ConcludeAsync(lot.Id, InvestigationConclusion.Confirmed);
        (await laboratory.ShouldRefuseAsync("blocked", () => desk.ReleaseAsync(lot.Id))).Message.ShouldContain("does not conform");
        await laboratory.ShouldRefuseAsync("lot-not-rejected", () => desk.ReworkAsync(lot.Id, 1m));
    }

    [Theory]
    [EachDatabase]
    public async Task A_run_without_an_investigation_is_invalidated_by_two_signatures(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (small, desk) = (laboratory.Small, laboratory.Small.Desk);
        var lot = await (await (await small.BookInAsync(small.Calcite)).SubmitAsync(Powder.Calcite)).AcceptAsync();
        await laboratory.ShouldRefuseAsync("invalidation-not-proposed", () => desk.ConfirmInvalidationAsync(lot.RunId));
        (await desk.ProposeInvalidationAsync(lot.RunId)).ShouldBeFalse();
        (await desk.EvidenceAsync(lot.Id)).AllRuns.Single().State.ShouldBe(RunState.Accepted, "it counts until both have signed");
        (await laboratory.ShouldRefuseAsync("blocked", () => desk.ReleaseAsync(lot.Id))).Message.ShouldContain("whether it is invalidated is not signed yet");
        await laboratory.ShouldRefuseAsync("invalidation-proposed", () => desk.ProposeInvalidationAsync(lot.RunId));
        await small.GiveRolesAsync(small.People.Reviewer, ParticleLims.Laboratory.People.Role.Reviewer, ParticleLims.Laboratory.People.Role.QualityManager);
        await laboratory.ShouldRefuseAsync("own-work", () => desk.ConfirmInvalidationAsync(lot.RunId, small.People.Reviewer));
        await desk.ConfirmInvalidationAsync(lot.RunId);
        var evidence = await desk.EvidenceAsync(lot.Id);
        evidence.AllRuns.Select(run => run.State).ShouldBe([RunState.Invalidated, RunState.Planned]);
        (await MeaningsAsync(laboratory, lot.RunId)).ShouldBe(["invalidated", "invalidation proposed", "reviewed"]);
    }

    [Theory]
    [EachDatabase]
    public async Task Nobody_signs_a_review_without_having_opened_what_changed(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (small, reviewer) = (laboratory.Small, laboratory.Small.People.Reviewer);
        var lot = await (await small.BookInAsync(small.Calcite)).SubmitAsync(Powder.Calcite);
        var changes = small.Get<ParticleLims.Laboratory.Review.RunChanges>();
        await laboratory.ShouldRefuseAsync("changes-unopened", AcceptAsync);
        (await changes.OpenAsync(reviewer.Actor, lot.RunId, default)).ShouldBeEmpty();
        await small.Desk.ReturnAsync(lot.RunId, "Look at the residue on 45 µm again");
        laboratory.Running.Clock.Advance(TimeSpan.FromMinutes(1));
        await small.Bench().SubmitAsync(lot.RunId);
        await laboratory.ShouldRefuseAsync("changes-unopened", AcceptAsync);
        (await changes.OpenAsync(reviewer.Actor, lot.RunId, default)).Select(one => one.Code).ShouldBe(["review.return"]);
        await AcceptAsync();

        async Task AcceptAsync() => await small.Get<ParticleLims.Laboratory.Review.RunReview>().AcceptAsync(reviewer.Actor, lot.RunId, await small.ProofAsync(reviewer), (await small.Bench().ViewAsync(lot.RunId)).Run.Version, default);
    }

    private static async Task<List<string>> MeaningsAsync(OpenedSmallLaboratory laboratory, Guid runId)
    {
        await using var data = laboratory.Data();
        return await data.Signatures.Where(one => one.SubjectId == runId).OrderBy(one => one.Meaning).Select(one => one.Meaning).ToListAsync();
    }
}
