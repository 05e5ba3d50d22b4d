using ParticleLims.Laboratory.Investigations;
using ParticleLims.Laboratory.Lots;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Runs;

namespace ParticleLims.Laboratory.Tests.Walks;

/// <summary>What the random walks found once, told in order.</summary>
public sealed class FoundByWalkingTests
{
    private static readonly RetestDraft OneByAnother = new(1, "The sealed second half of the sample", "Against the limits, not averaged", null);

    [Theory]
    [EachDatabase]
    public async Task A_rejection_holds_although_a_run_goes_on_after_it(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        var lot = await small.BookInAsync(small.Calcite);
        await small.Bench().StartAsync(lot.RunId, lot.Method);
        await small.Desk.RejectAsync(lot.Id, "The truck stood in the rain");
        await small.Bench().FinishAsync(lot.RunId, Powder.CoarseCalcite);
        await small.Bench().SubmitAsync(lot.RunId);
        await DecisionsAreAsSignedAsync(laboratory, lot.Id);
    }

    [Theory]
    [EachDatabase]
    public async Task A_release_is_not_called_changed_because_the_lot_was_opened_again_and_went_on(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (small, desk) = (laboratory.Small, laboratory.Small.Desk);
        var lot = await (await small.BookInAsync(small.Calcite)).ReleaseAsync(Powder.Calcite);
        laboratory.Running.Clock.Advance(TimeSpan.FromMinutes(1));
        await desk.AskReopeningAsync(lot.Id);
        await desk.ReopenAsync(lot.Id);
        await desk.InvalidateAsync(lot.RunId);
        await desk.ProposeAsync(lot.Id);
        await DecisionsAreAsSignedAsync(laboratory, lot.Id);
    }

    [Theory]
    [EachDatabase]
    public async Task Whoever_made_the_investigated_run_neither_sieves_nor_submits_its_retest(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (small, quality) = (laboratory.Small, laboratory.Small.People.QualityManager);
        var lot = await (await small.BookInAsync(small.Calcite)).SubmitAsync(Powder.CoarseCalcite);
        var plan = await small.Get<RetestWork>().ProposeAsync(small.People.Reviewer.Actor, (await small.Desk.OpenInvestigationAsync(lot.Id)).Id, OneByAnother, null, default);
        await small.Get<RetestWork>().ApproveAsync(quality.Actor, plan, await small.ProofAsync(quality), 1, default);
        var retest = (await small.Get<RetestWork>().RunsAsync(quality.Actor, plan, default)).Single().Id;
        var (first, other) = (small.Bench(), small.Bench(small.People.SecondTechnician));
        await other.StartAsync(retest, lot.Method);
        while ((await other.ViewAsync(retest)).Next is { Kind: not RunStepKind.Sieve })
        {
            await other.StepAsync(retest, Powder.Calcite);
        }

        await laboratory.ShouldRefuseAsync("retest-other-person", () => first.SieveAsync(retest, 1, 180));
        await other.FinishAsync(retest, Powder.Calcite);
        await laboratory.ShouldRefuseAsync("retest-other-person", () => first.SubmitAsync(retest));
        await other.SubmitAsync(retest);
    }

    [Theory]
    [EachDatabase]
    public async Task The_signature_under_an_investigation_invalidates_no_run_that_was_made_after_it(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (small, desk) = (laboratory.Small, laboratory.Small.Desk);
        var lot = await (await small.BookInAsync(small.Calcite)).SubmitAsync(Powder.CoarseCalcite);
        await desk.ConcludeAsync(lot.Id, InvestigationConclusion.LaboratoryCause);
        laboratory.Running.Clock.Advance(TimeSpan.FromMinutes(1));
        (await desk.ProposeInvalidationAsync(lot.RunId)).ShouldBeTrue("the quality manager has signed the cause already");
        var second = (await desk.EvidenceAsync(lot.Id)).AllRuns.Single(run => run.ReplacesRunId == lot.RunId).Id;
        await small.Bench().CarryOutAsync(second, lot.Method, Powder.Calcite);
        (await desk.ProposeInvalidationAsync(second)).ShouldBeFalse("of this run the quality manager has signed nothing");
        (await desk.EvidenceAsync(lot.Id)).AllRuns.Single(run => run.Id == second).State.ShouldBe(RunState.Submitted);
        await desk.ConfirmInvalidationAsync(second);
    }

    [Theory]
    [EachDatabase]
    public async Task A_lot_whose_first_sample_was_set_aside_is_decided_on_its_new_sample(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (small, quality) = (laboratory.Small, laboratory.Small.People.QualityManager);
        var lot = await (await small.BookInAsync(small.Calcite)).SubmitAsync(Powder.CoarseCalcite);
        var open = await small.Desk.OpenInvestigationAsync(lot.Id);
        await small.Get<RetestWork>().PermitSampleAsync(quality.Actor, open.Id, "The jar was open", await small.ProofAsync(quality), open.Version, default);
        var booked = await small.BookInSampleAsync(lot.Id, small.Calcite);
        await small.Bench().CarryOutAsync(booked.RunIds[0], small.Calcite, Powder.Calcite);
        await small.Desk.AcceptAsync(booked.RunIds[0]);
        await small.Desk.ConcludeAsync(lot.Id, InvestigationConclusion.LaboratoryCause);
        await small.Desk.InvalidateAsync(lot.RunId, "The jar was open: this sample cannot stand for the lot");
        (await small.Desk.EvidenceAsync(lot.Id)).Lot.State.ShouldBe(LotState.AwaitingDisposition, "every result is in");
        await small.Desk.ReleaseAsync(lot.Id);
    }

    [Theory]
    [EachDatabase]
    public async Task A_concession_is_proposed_anew_after_the_lot_was_opened_again(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (small, desk) = (laboratory.Small, laboratory.Small.Desk);
        var lot = await (await (await small.BookInAsync(small.Calcite)).SubmitAsync(Powder.CoarseCalcite)).AcceptAsync();
        await desk.ConcludeAsync(lot.Id, InvestigationConclusion.Confirmed);
        await desk.ProposeAsync(lot.Id);
        laboratory.Running.Clock.Advance(TimeSpan.FromMinutes(1));
        await desk.ConcedeAsync(lot.Id);
        laboratory.Running.Clock.Advance(TimeSpan.FromMinutes(1));
        await desk.AskReopeningAsync(lot.Id);
        await desk.ReopenAsync(lot.Id);
        (await laboratory.ShouldRefuseAsync("blocked", () => desk.ConcedeAsync(lot.Id))).Message.ShouldContain("Nobody has proposed a concession");
        laboratory.Running.Clock.Advance(TimeSpan.FromMinutes(1));
        await desk.ProposeAsync(lot.Id);
        await desk.ConcedeAsync(lot.Id);
    }

    private static async Task DecisionsAreAsSignedAsync(OpenedSmallLaboratory laboratory, Guid lotId) =>
        (await laboratory.Get<SignatureReading>().OfAsync(laboratory.Small.People.QualityManager.Actor, lotId, default)).ShouldAllBe(seen => seen.Unchanged != false);
}
