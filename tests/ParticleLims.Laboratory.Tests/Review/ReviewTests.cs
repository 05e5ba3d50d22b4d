using ParticleLims.Laboratory.Investigations;
using ParticleLims.Laboratory.Lots;
using ParticleLims.Laboratory.People;
using ParticleLims.Laboratory.Review;
using ParticleLims.Laboratory.Runs;

namespace ParticleLims.Laboratory.Tests.Review;

public sealed class ReviewTests
{
    [Theory]
    [EachDatabase]
    public async Task Nobody_reviews_a_run_in_which_they_took_part(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        var lot = await small.BookInAsync(small.Calcite);
        await small.Bench().StartAsync(lot.RunId, lot.Method);
        await small.Bench(small.People.Reviewer).StepAsync(lot.RunId, Powder.Calcite);
        await small.Bench().FinishAsync(lot.RunId, Powder.Calcite);
        await small.Bench().SubmitAsync(lot.RunId);
        var refusal = await laboratory.ShouldRefuseAsync("own-work", () => small.Desk.SignAsync(lot.RunId));
        refusal.Message.ShouldContain("Ruth Vale took part in run R-26-00001");
        await laboratory.ShouldRefuseAsync("own-work", () => small.Desk.ReturnAsync(lot.RunId));
        await laboratory.ShouldRefuseAsync("own-work", () => small.Desk.InvalidateAsync(lot.RunId));
    }

    [Theory]
    [EachDatabase]
    public async Task Who_only_watched_the_sieving_took_part_too(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        var lot = await small.BookInAsync(small.Calcite);
        await small.Bench().StartAsync(lot.RunId, lot.Method);
        await small.Bench().StepAsync(lot.RunId, Powder.Calcite);
        await small.Bench().StepAsync(lot.RunId, Powder.Calcite);
        await small.Bench(small.People.Reviewer).SieveAsync(lot.RunId, 1, 180);
        await small.Bench().FinishAsync(lot.RunId, Powder.Calcite);
        await small.Bench().SubmitAsync(lot.RunId);
        await laboratory.ShouldRefuseAsync("own-work", () => small.Desk.SignAsync(lot.RunId));
    }

    [Theory]
    [EachDatabase]
    public async Task A_review_over_a_run_that_changed_meanwhile_is_refused(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        var lot = await (await small.BookInAsync(small.Calcite)).SubmitAsync(Powder.Calcite);
        var read = (await small.Bench().ViewAsync(lot.RunId)).Run.Version;
        await small.Desk.ReturnAsync(lot.RunId);
        await small.Bench().SubmitAsync(lot.RunId);
        var proof = await small.ProofAsync(small.People.Reviewer);
        await laboratory.ShouldRefuseAsync("changed-meanwhile", () => small.Get<RunReview>().AcceptAsync(small.People.Reviewer.Actor, lot.RunId, proof, read, default));
    }

    [Theory]
    [EachDatabase]
    public async Task The_last_accepted_replicate_brings_the_lot_before_the_quality_manager(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        var lot = await (await small.BookInAsync(small.Starch)).SubmitAsync(Powder.Starch);
        await small.Desk.AcceptAsync(lot.Sample.RunIds[0]);
        (await small.Desk.EvidenceAsync(lot.Id)).Lot.State.ShouldBe(LotState.AwaitingResults);
        await small.Desk.AcceptAsync(lot.Sample.RunIds[1]);
        (await small.Desk.EvidenceAsync(lot.Id)).Lot.State.ShouldBe(LotState.AwaitingDisposition);
    }

    [Theory]
    [EachDatabase]
    public async Task An_invalidated_run_stays_readable_counts_in_nothing_and_is_planned_anew(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        var lot = await (await small.BookInAsync(small.Calcite)).SubmitAsync(Powder.Calcite);
        await small.Desk.AcceptAsync(lot.RunId);
        await small.Desk.InvalidateAsync(lot.RunId);
        var evidence = await small.Desk.EvidenceAsync(lot.Id);
        evidence.Lot.State.ShouldBe(LotState.AwaitingResults);
        evidence.AllRuns.Count.ShouldBe(2);
        var replacement = evidence.AllRuns.Single(run => run.ReplacesRunId == lot.RunId);
        (replacement.State, replacement.Replicate).ShouldBe((RunState.Planned, 1));
        evidence.AllRuns.Single(run => run.Id == lot.RunId).Weighings.Count.ShouldBe(12);
        await small.Bench().CarryOutAsync(replacement.Id, lot.Method, Powder.Calcite);
        await small.Desk.AcceptAsync(replacement.Id);
        await small.Desk.ReleaseAsync(lot.Id);
    }

    [Theory]
    [EachDatabase]
    public async Task A_run_under_investigation_stays_as_it_is(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        var lot = await (await small.BookInAsync(small.Calcite)).SubmitAsync(Powder.CoarseCalcite);
        var refusal = await laboratory.ShouldRefuseAsync("investigation-open", () => small.Desk.ReturnAsync(lot.RunId));
        refusal.Message.ShouldContain("I-26-00001");
        await laboratory.ShouldRefuseAsync("investigation-open", () => small.Desk.InvalidateAsync(lot.RunId));
    }

    [Theory]
    [EachDatabase]
    public async Task So_do_the_other_replicates_of_its_sample(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        var coarse = Powder.Starch with { RetainedPercent = new Dictionary<decimal, decimal> { [32m] = 35m, [63m] = 6m } };
        var lot = await (await small.BookInAsync(small.Starch)).SubmitAsync(coarse);
        await laboratory.ShouldRefuseAsync("investigation-open", () => small.Desk.ReturnAsync(lot.Sample.RunIds[0]));
        await laboratory.ShouldRefuseAsync("investigation-open", () => small.Desk.InvalidateAsync(lot.Sample.RunIds[0]));
        await small.Desk.ConcludeAsync(lot.Id, InvestigationConclusion.Confirmed);
        await laboratory.ShouldRefuseAsync("no-laboratory-cause", () => small.Desk.InvalidateAsync(lot.Sample.RunIds[0]));
    }

    [Theory]
    [EachDatabase(InvestigationConclusion.Confirmed)]
    [EachDatabase(InvestigationConclusion.Inconclusive)]
    public async Task Without_a_cause_in_the_laboratory_a_value_out_of_specification_stands(DatabaseKind kind, InvestigationConclusion conclusion)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        var lot = await (await small.BookInAsync(small.Calcite)).SubmitAsync(Powder.CoarseCalcite);
        await small.Desk.ConcludeAsync(lot.Id, conclusion);
        await laboratory.ShouldRefuseAsync("no-laboratory-cause", () => small.Desk.InvalidateAsync(lot.RunId));
        await laboratory.ShouldRefuseAsync("no-laboratory-cause", () => small.Desk.ReturnAsync(lot.RunId));
        await small.Desk.AcceptAsync(lot.RunId);
        (await small.Desk.EvidenceAsync(lot.Id)).Lot.State.ShouldBe(LotState.OnHold);
        await laboratory.ShouldRefuseAsync("blocked", () => small.Desk.ReleaseAsync(lot.Id));
        await small.Desk.RejectAsync(lot.Id);
    }

    [Theory]
    [EachDatabase]
    public async Task With_a_cause_in_the_laboratory_the_run_is_invalidated_and_the_lot_goes_on(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        var lot = await (await small.BookInAsync(small.Calcite)).SubmitAsync(Powder.CoarseCalcite);
        await small.Desk.ConcludeAsync(lot.Id, InvestigationConclusion.LaboratoryCause);
        (await small.Desk.EvidenceAsync(lot.Id)).Lot.State.ShouldBe(LotState.AwaitingResults);
        await small.Desk.InvalidateAsync(lot.RunId);
        var replacement = (await small.Desk.EvidenceAsync(lot.Id)).AllRuns.Single(run => run.ReplacesRunId == lot.RunId);
        await small.Bench().CarryOutAsync(replacement.Id, lot.Method, Powder.Calcite);
        await small.Desk.AcceptAsync(replacement.Id);
        await small.Desk.ReleaseAsync(lot.Id);
    }

    [Theory]
    [EachDatabase]
    public async Task A_cause_in_the_laboratory_does_not_lift_the_quality_managers_own_hold(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        var lot = await (await small.BookInAsync(small.Calcite)).SubmitAsync(Powder.CoarseCalcite);
        await small.Desk.HoldAsync(lot.Id, "The customer complained about the lot before");
        await small.Desk.ConcludeAsync(lot.Id, InvestigationConclusion.LaboratoryCause);
        (await small.Desk.EvidenceAsync(lot.Id)).Lot.State.ShouldBe(LotState.OnHold);
        await small.Desk.InvalidateAsync(lot.RunId);
        var evidence = await small.Desk.EvidenceAsync(lot.Id);
        evidence.Lot.State.ShouldBe(LotState.OnHold);
        evidence.AllRuns.ShouldContain(run => run.ReplacesRunId == lot.RunId && run.State == RunState.Planned);
    }

    [Theory]
    [EachDatabase]
    public async Task Nobody_concludes_the_investigation_of_a_run_in_which_they_took_part(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        var lot = await (await small.BookInAsync(small.Calcite)).SubmitAsync(Powder.CoarseCalcite);
        await small.GiveRolesAsync(small.People.Technician, Role.Technician, Role.QualityManager);
        var investigation = (await small.Desk.InvestigationsAsync(lot.Id)).Single();
        var proof = await small.ProofAsync(small.People.Technician);
        await laboratory.ShouldRefuseAsync("own-work", () => small.Get<InvestigationWork>().ConcludeAsync(
            small.People.Technician.Actor, investigation.Id, InvestigationConclusion.LaboratoryCause, LaboratoryCauseKind.Preparation, "I spilled some of it", proof, investigation.Version, default));
    }
}
