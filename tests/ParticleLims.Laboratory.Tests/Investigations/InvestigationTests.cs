using ParticleLims.Laboratory.Investigations;
using ParticleLims.Laboratory.Lots;
using ParticleLims.Laboratory.Runs;
using ParticleLims.Laboratory.Samples;
using ParticleLims.Laboratory.Today;

namespace ParticleLims.Laboratory.Tests.Investigations;

/// <summary>A value out of specification is gone into point by point; nothing is tested away.</summary>
public sealed class InvestigationTests
{
    private static readonly RetestDraft TwoByAnother = new(2, "The sealed second half of the sample", "Each against the limits, none averaged", null);

    [Theory]
    [EachDatabase]
    public async Task The_laboratory_phase_ends_only_when_every_point_is_answered_with_its_evidence(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (small, desk) = (laboratory.Small, laboratory.Small.Desk);
        var (work, reviewer) = (small.Get<InvestigationWork>(), small.People.Reviewer.Actor);
        var lot = await (await small.BookInAsync(small.Calcite)).SubmitAsync(Powder.CoarseCalcite);
        var open = await desk.OpenInvestigationAsync(lot.Id);
        open.Unanswered.ShouldBe(PhasePoints.All);
        (await laboratory.ShouldRefuseAsync("points-unanswered", () => work.GoFullAsync(reviewer, open.Id, "No cause found", open.Version, default))).Message.ShouldContain("what was kept, talk with the technician");
        await laboratory.ShouldRefuseAsync("answer-words", () => work.AnswerAsync(reviewer, open.Id, PhasePoint.Balance, PointFinding.InOrder, " ok ", null, default));

        await work.AnswerAsync(reviewer, open.Id, PhasePoint.Balance, PointFinding.InOrder, "Checked that morning", null, default);
        laboratory.Running.Clock.Advance(TimeSpan.FromMinutes(1));
        await work.AnswerAsync(reviewer, open.Id, PhasePoint.Balance, PointFinding.Found, "It stood off its level", null, default);
        open = await desk.OpenInvestigationAsync(lot.Id);
        open.Answers.Select(answer => answer.Words).ShouldBe(["Checked that morning", "It stood off its level"], "both stay");
        open.AnswerTo(PhasePoint.Balance)!.Finding.ShouldBe(PointFinding.Found);
        await desk.AnswerAsync(lot.Id);
        await work.GoFullAsync(reviewer, open.Id, "No cause found", (await desk.OpenInvestigationAsync(lot.Id)).Version, default);
        open = await desk.OpenInvestigationAsync(lot.Id);
        open.State.ShouldBe(InvestigationState.FullPhase);

        await laboratory.ShouldRefuseAsync("associated-lots-missing", () => ConcludeAsync(small, open, InvestigationConclusion.Confirmed));
        await laboratory.ShouldRefuseAsync("lot-unknown", () => work.AssociateAsync(reviewer, open.Id, "nowhere", "Same mill, same night", null, default));
        await laboratory.ShouldRefuseAsync("lot-named", () => work.AssociateAsync(reviewer, open.Id, open.LotNumber, "Same mill, same night", null, default));
        var other = (await desk.EvidenceAsync(await small.BookInLotAsync(small.Calcite))).Lot;
        await work.AssociateAsync(reviewer, open.Id, other.Number.ToLowerInvariant(), "Same mill, same night", null, default);
        open = await desk.OpenInvestigationAsync(lot.Id);
        open.AssociatedLots.ShouldHaveSingleItem().LotId.ShouldBe(other.Id);
        await laboratory.ShouldRefuseAsync("conclusion", () => ConcludeAsync(small, open, InvestigationConclusion.LaboratoryCause));
        await ConcludeAsync(small, open, InvestigationConclusion.Confirmed);
        (await work.FindAsync(reviewer, open.Id, default))!.Conclusion.ShouldBe(InvestigationConclusion.Confirmed);
    }

    [Theory]
    [EachDatabase]
    public async Task A_cause_that_no_point_shows_is_not_concluded(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        var lot = await (await small.BookInAsync(small.Calcite)).SubmitAsync(Powder.CoarseCalcite);
        await small.Desk.AnswerAsync(lot.Id);
        await laboratory.ShouldRefuseAsync("cause-undocumented", async () => await ConcludeAsync(small, await small.Desk.OpenInvestigationAsync(lot.Id), InvestigationConclusion.LaboratoryCause, LaboratoryCauseKind.Balance));
        laboratory.Running.Clock.Advance(TimeSpan.FromMinutes(1));
        await small.Get<InvestigationWork>().AnswerAsync(small.People.Reviewer.Actor, (await small.Desk.OpenInvestigationAsync(lot.Id)).Id, PhasePoint.Balance, PointFinding.Found, "A draught from the open window: the display ran", null, default);
        await ConcludeAsync(small, await small.Desk.OpenInvestigationAsync(lot.Id), InvestigationConclusion.LaboratoryCause, LaboratoryCauseKind.Balance);
        (await small.Desk.InvestigationsAsync(lot.Id)).Single().Cause.ShouldBe(LaboratoryCauseKind.Balance);
    }

    [Theory]
    [EachDatabase]
    public async Task Hypothesis_measurements_are_approved_before_the_first_and_reported_nowhere(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (small, work) = (laboratory.Small, laboratory.Small.Get<HypothesisWork>());
        var (reviewer, quality) = (small.People.Reviewer.Actor, small.People.QualityManager);
        var lot = await (await small.BookInAsync(small.Calcite)).SubmitAsync(Powder.CoarseCalcite);
        await small.Desk.AnswerAsync(lot.Id);
        var open = await small.Desk.OpenInvestigationAsync(lot.Id);
        await laboratory.ShouldRefuseAsync("hypothesis-words", () => work.ProposeAsync(reviewer, open.Id, "The 45 µm sieve is torn", "sieve", "At least 97 % passing on another sieve", null, default));
        var supposed = await work.ProposeAsync(reviewer, open.Id, "The 45 µm sieve is torn", "The second half on TS-2 and on TS-7", "Supported if TS-7 passes 97 % or more and TS-2 less", null, default);
        await laboratory.ShouldRefuseAsync("hypothesis-state", () => MeasureAsync(97.2m));
        await laboratory.ShouldRefuseAsync("hypothesis-open", async () => await ConcludeAsync(small, await small.Desk.OpenInvestigationAsync(lot.Id), InvestigationConclusion.LaboratoryCause, LaboratoryCauseKind.TestSieve));
        await work.ApproveAsync(quality.Actor, supposed, await small.ProofAsync(quality), 1, default);
        await laboratory.ShouldRefuseAsync("hypothesis-unmeasured", () => work.JudgeAsync(reviewer, supposed, HypothesisOutcome.Supported, "By the rule", 2, default));
        await MeasureAsync(97.2m);
        await MeasureAsync(92.1m);
        await work.JudgeAsync(reviewer, supposed, HypothesisOutcome.Supported, "TS-7 passes 97.2 %, TS-2 92.1 %", 4, default);
        await laboratory.ShouldRefuseAsync("hypothesis-state", () => MeasureAsync(99m));
        var shown = (await small.Desk.OpenInvestigationAsync(lot.Id)).Hypotheses.ShouldHaveSingleItem();
        (shown.Outcome, shown.ApprovedByName).ShouldBe((HypothesisOutcome.Supported, quality.FullName));
        shown.Measurements.Select(one => one.Value).ShouldBe([97.2m, 92.1m]);

        var evidence = await small.Desk.EvidenceAsync(lot.Id);
        evidence.Content.ShouldNotContain("97.2");
        evidence.Results.Single().Replicates.Count.ShouldBe(1, "a hypothesis measurement is no replicate");

        Task<bool> MeasureAsync(decimal value) => work.MeasureAsync(reviewer, supposed, "Passing 45 µm, second half", value, "%", null, default);
    }

    [Theory]
    [EachDatabase]
    public async Task What_was_written_after_the_page_was_opened_is_not_signed_with_the_conclusion(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (small, desk) = (laboratory.Small, laboratory.Small.Desk);
        var (work, hypotheses, retests) = (small.Get<InvestigationWork>(), small.Get<HypothesisWork>(), small.Get<RetestWork>());
        var (reviewer, manager) = (small.People.Reviewer.Actor, small.People.QualityManager);
        var lot = await (await small.BookInAsync(small.Calcite)).SubmitAsync(Powder.CoarseCalcite);
        await desk.AnswerAsync(lot.Id, causeFound: true);

        Guid hypothesis = default, plan = default;
        await StaleAfterAsync(one => work.NoteAsync(reviewer, one.Id, "The riffle was found loose", null, default));
        await StaleAfterAsync(async one => hypothesis = await hypotheses.ProposeAsync(reviewer, one.Id, "The riffle divides unevenly", "Both halves are sieved at 45 µm", "Supported if they differ by 2 %", null, default));
        await StaleAfterAsync(async one => await hypotheses.ApproveAsync(manager.Actor, hypothesis, await small.ProofAsync(manager), one.Hypotheses.Single().Version, default));
        await StaleAfterAsync(_ => hypotheses.MeasureAsync(reviewer, hypothesis, "Passing 45 µm, first half", 98.1m, "%", null, default));
        await StaleAfterAsync(one => hypotheses.JudgeAsync(reviewer, hypothesis, HypothesisOutcome.RuledOut, "The halves agree", one.Hypotheses.Single().Version, default));
        await StaleAfterAsync(async one => plan = await retests.ProposeAsync(reviewer, one.Id, new RetestDraft(1, "Second half of the sample", "Against the specification", null), null, default));
        await StaleAfterAsync(one => retests.WithdrawAsync(reviewer, plan, "Not needed any more", one.RetestPlans.Single().Version, default));
        await desk.ConcludeAsync(lot.Id, InvestigationConclusion.LaboratoryCause);

        async Task StaleAfterAsync(Func<Investigation, Task> write)
        {
            var shown = await desk.OpenInvestigationAsync(lot.Id);
            await write(shown);
            await laboratory.ShouldRefuseAsync("changed-meanwhile", async () => await work.ConcludeAsync(
                manager.Actor, shown.Id, InvestigationConclusion.LaboratoryCause, LaboratoryCauseKind.Preparation, "As the notes say", await small.ProofAsync(manager), shown.Version, default));
        }
    }

    [Theory]
    [EachDatabase]
    public async Task Nobody_approves_what_they_proposed(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (small, quality) = (laboratory.Small, laboratory.Small.People.QualityManager);
        var open = await OpenAsync(small);
        var plan = await small.Get<RetestWork>().ProposeAsync(quality.Actor, open.Id, TwoByAnother, null, default);
        await laboratory.ShouldRefuseAsync("own-work", async () => await small.Get<RetestWork>().ApproveAsync(quality.Actor, plan, await small.ProofAsync(quality), 1, default));
        var supposed = await small.Get<HypothesisWork>().ProposeAsync(quality.Actor, open.Id, "The sieve is blinded", "Both halves on another sieve", "Supported if they differ by 2 %", null, default);
        await laboratory.ShouldRefuseAsync("own-work", async () => await small.Get<HypothesisWork>().ApproveAsync(quality.Actor, supposed, await small.ProofAsync(quality), 1, default));
    }

    [Theory]
    [EachDatabase]
    public async Task Retests_are_as_many_as_were_approved_by_another_person_and_average_nothing_away(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (small, work) = (laboratory.Small, laboratory.Small.Get<RetestWork>());
        var (reviewer, quality) = (small.People.Reviewer.Actor, small.People.QualityManager);
        var lot = await (await small.BookInAsync(small.Calcite)).SubmitAsync(Powder.CoarseCalcite);
        await small.Desk.AnswerAsync(lot.Id);
        var open = await small.Desk.OpenInvestigationAsync(lot.Id);
        await laboratory.ShouldRefuseAsync("retest-count", () => work.ProposeAsync(reviewer, open.Id, TwoByAnother with { Count = 8 }, null, default));
        await laboratory.ShouldRefuseAsync("retest-person", () => work.ProposeAsync(reviewer, open.Id, TwoByAnother with { SamePersonReason = "me" }, null, default));
        var plan = await work.ProposeAsync(reviewer, open.Id, TwoByAnother, null, default);
        await laboratory.ShouldRefuseAsync("retest-plan-there", () => work.ProposeAsync(reviewer, open.Id, TwoByAnother with { Count = 3 }, null, default));
        (await small.Desk.EvidenceAsync(lot.Id)).AllRuns.Count.ShouldBe(1, "nothing is sieved before the approval");
        await work.ApproveAsync(quality.Actor, plan, await small.ProofAsync(quality), 1, default);
        await laboratory.ShouldRefuseAsync("retest-plan-state", () => work.WithdrawAsync(reviewer, plan, "One would do", 2, default));
        await laboratory.ShouldRefuseAsync("retest-plan-there", () => work.ProposeAsync(reviewer, open.Id, TwoByAnother with { Count = 3 }, null, default));

        var runs = await work.RunsAsync(reviewer, plan, default);
        runs.Select(run => (run.State, run.Replicate, run.IsRetest)).ShouldBe([(RunState.Planned, 1, true), (RunState.Planned, 2, true)]);
        await laboratory.ShouldRefuseAsync("retest-other-person", () => small.Bench().StartAsync(runs[0].Id, small.Calcite));
        var bench = small.Bench(small.People.SecondTechnician);
        await bench.StartAsync(runs[0].Id, small.Calcite);
        await laboratory.ShouldRefuseAsync("retest-other-person", () => small.Bench().StepAsync(runs[0].Id, Powder.Calcite));
        await bench.FinishAsync(runs[0].Id, Powder.Calcite);
        await bench.SubmitAsync(runs[0].Id);
        await small.Desk.AcceptAsync(runs[0].Id);
        await small.Desk.AcceptAsync(lot.RunId);
        await small.Get<InvestigationWork>().GoFullAsync(reviewer, open.Id, "No cause found", (await small.Desk.OpenInvestigationAsync(lot.Id)).Version, default);
        await small.Get<InvestigationWork>().NoOtherLotsAsync(reviewer, open.Id, "Those around it conform", (await small.Desk.OpenInvestigationAsync(lot.Id)).Version, default);
        await laboratory.ShouldRefuseAsync("retests-open", async () => await ConcludeAsync(small, await small.Desk.OpenInvestigationAsync(lot.Id), InvestigationConclusion.Inconclusive));
        await bench.CarryOutAsync(runs[1].Id, small.Calcite, Powder.Calcite);
        await small.Desk.AcceptAsync(runs[1].Id);

        var shown = await work.ShownAsync(reviewer, open.Id, default);
        shown.Select(one => one.Limits[0].IsOut).ShouldBe([false, false]);
        var result = (await small.Desk.EvidenceAsync(lot.Id)).Results.Single();
        result.Replicates.ShouldHaveSingleItem().Run.Id.ShouldBe(lot.RunId);
        result.Limits[0].IsOut.ShouldBeTrue("two that conform do not average the first away");
        open = await small.Desk.OpenInvestigationAsync(lot.Id);
        await ConcludeAsync(small, open, InvestigationConclusion.Inconclusive);
        await laboratory.ShouldRefuseAsync("blocked", () => small.Desk.ReleaseAsync(lot.Id));
    }

    [Theory]
    [EachDatabase]
    public async Task A_held_lot_gets_no_other_sample_unless_the_quality_manager_permits_one_by_signature(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (small, quality) = (laboratory.Small, laboratory.Small.People.QualityManager);
        var lot = await (await small.BookInAsync(small.Calcite)).SubmitAsync(Powder.CoarseCalcite);
        var open = await small.Desk.OpenInvestigationAsync(lot.Id);
        (await laboratory.ShouldRefuseAsync("lot-closed", () => small.BookInSampleAsync(lot.Id, small.Calcite))).Message.ShouldContain("by signature, on the investigation's page");
        await small.Get<RetestWork>().PermitSampleAsync(quality.Actor, open.Id, "The jar was open: the film of the store shows it", await small.ProofAsync(quality), open.Version, default);
        await laboratory.ShouldRefuseAsync("sample-permitted", async () => await small.Get<RetestWork>().PermitSampleAsync(quality.Actor, open.Id, "Another one too", await small.ProofAsync(quality), open.Version, default));
        var booked = await small.BookInSampleAsync(lot.Id, small.Calcite);
        var sample = (await small.Get<SampleReception>().FindAsync(quality.Actor, booked.Id, default))!;
        (sample.ReplacesSampleId, sample.TakenAgainBecause).ShouldBe((lot.Sample.Id, "The jar was open: the film of the store shows it"));
        await laboratory.ShouldRefuseAsync("lot-closed", () => small.BookInSampleAsync(lot.Id, small.Calcite));

        await small.Bench().CarryOutAsync(booked.RunIds[0], small.Calcite, Powder.Calcite);
        await small.Desk.AcceptAsync(booked.RunIds[0]);
        await small.Desk.AnswerAsync(lot.Id, causeFound: true);
        await ConcludeAsync(small, await small.Desk.OpenInvestigationAsync(lot.Id), InvestigationConclusion.LaboratoryCause, LaboratoryCauseKind.SampleNotRepresentative);
        await small.Desk.AcceptAsync(lot.RunId);
        await laboratory.ShouldRefuseAsync("blocked", () => small.Desk.ReleaseAsync(lot.Id));
        await small.Desk.InvalidateAsync(lot.RunId, "The jar was open: this sample cannot stand for the lot");
        var evidence = await small.Desk.EvidenceAsync(lot.Id);
        evidence.AllRuns.Count.ShouldBe(2, "the sample that was set aside is not sieved again");
        evidence.Results.ShouldHaveSingleItem().SampleId.ShouldBe(booked.Id);
    }

    [Theory]
    [EachDatabase]
    public async Task A_value_off_the_trend_opens_the_lighter_case_which_is_answered_before_the_release(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (small, work) = (laboratory.Small, laboratory.Small.Get<InvestigationWork>());
        await small.MakeHistoryAsync();
        var usual = await (await small.BookInAsync(small.Spice)).SubmitAsync(Powder.SpiceCoarser(2.1m));
        (await small.Desk.InvestigationsAsync(usual.Id)).ShouldBeEmpty();
        var lot = await (await (await small.BookInAsync(small.Spice)).SubmitAsync(Powder.SpiceCoarser(3.4m))).AcceptAsync();
        var open = (await small.Desk.InvestigationsAsync(lot.Id)).ShouldHaveSingleItem();
        (open.Kind, open.State).ShouldBe((InvestigationKind.OutOfTrend, InvestigationState.LaboratoryPhase));
        open.What.ShouldStartWith("Retained on 500 µm is 3.4 %; the last 20 runs of this product lie around 2.0, and ");
        (await small.Desk.EvidenceAsync(lot.Id)).Lot.State.ShouldBe(LotState.AwaitingDisposition, "it holds nothing");
        (await laboratory.ShouldRefuseAsync("blocked", () => small.Desk.ReleaseAsync(lot.Id))).Message.ShouldContain("a value out of trend is not explained yet");
        await laboratory.ShouldRefuseAsync("out-of-trend", () => small.Get<RetestWork>().ProposeAsync(small.People.Reviewer.Actor, open.Id, TwoByAnother, null, default));
        await laboratory.ShouldRefuseAsync("words", () => work.ExplainAsync(small.People.Reviewer.Actor, open.Id, " so ", open.Version, default));
        await work.ExplainAsync(small.People.Reviewer.Actor, open.Id, "A new sieve at the mill; watched with the next lots", open.Version, default);
        await small.Desk.ReleaseAsync(lot.Id);
    }

    [Theory]
    [EachDatabase]
    public async Task What_was_proposed_waits_on_the_board_until_it_is_signed(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (small, quality, reviewer) = (laboratory.Small, laboratory.Small.People.QualityManager, laboratory.Small.People.Reviewer.Actor);
        var open = await OpenAsync(small);
        var plan = await small.Get<RetestWork>().ProposeAsync(reviewer, open.Id, TwoByAnother, null, default);
        var supposed = await small.Get<HypothesisWork>().ProposeAsync(reviewer, open.Id, "The sieve is blinded", "Both halves on another sieve", "Supported if they differ by 2 %", null, default);
        var running = await (await small.BookInAsync(small.Calcite)).SubmitAsync(Powder.Calcite);
        await small.Desk.ProposeInvalidationAsync(running.RunId);
        var released = await (await small.BookInAsync(small.Calcite)).ReleaseAsync(Powder.Calcite);
        laboratory.Running.Clock.Advance(TimeSpan.FromMinutes(1));
        await small.Desk.AskReopeningAsync(released.Id);
        (await WaitingAsync()).ShouldBe([(SignatureNeed.Invalidation, running.RunId), (SignatureNeed.Hypothesis, open.Id), (SignatureNeed.Retests, open.Id), (SignatureNeed.Reopening, released.Id)]);

        await small.Desk.ConfirmInvalidationAsync(running.RunId);
        await small.Get<HypothesisWork>().ApproveAsync(quality.Actor, supposed, await small.ProofAsync(quality), 1, default);
        await small.Get<RetestWork>().ApproveAsync(quality.Actor, plan, await small.ProofAsync(quality), 1, default);
        laboratory.Running.Clock.Advance(TimeSpan.FromMinutes(1));
        await small.Desk.ReopenAsync(released.Id);
        (await WaitingAsync()).ShouldBeEmpty();

        async Task<IEnumerable<(SignatureNeed, Guid)>> WaitingAsync() => (await small.Get<TodayReading>().BoardAsync(quality.Actor, new DateOnly(2026, 3, 2), default)).Signatures.Select(one => (one.Need, one.PlaceId)).ToList();
    }

    [Theory]
    [EachDatabase]
    public async Task An_investigation_that_is_not_closed_in_time_is_overdue(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var open = await OpenAsync(laboratory.Small);
        var due = open.DueOn!.Value;
        due.ShouldBe(WorkingDays.After(DateOnly.FromDateTime(open.OpenedAt.UtcDateTime), 20));
        (open.IsOverdue(due), open.IsOverdue(due.AddDays(1))).ShouldBe((false, true));
    }

    [Fact]
    public void Saturday_and_Sunday_are_no_working_days()
    {
        WorkingDays.After(new DateOnly(2026, 11, 26), 0).ShouldBe(new DateOnly(2026, 11, 26));
        WorkingDays.After(new DateOnly(2026, 11, 26), 1).ShouldBe(new DateOnly(2026, 11, 27));
        WorkingDays.After(new DateOnly(2026, 11, 27), 1).ShouldBe(new DateOnly(2026, 11, 30));
        WorkingDays.After(new DateOnly(2026, 11, 26), 20).ShouldBe(new DateOnly(2026, 12, 24));
    }

    private static async Task<Investigation> OpenAsync(SmallLaboratory small) =>
        await small.Desk.OpenInvestigationAsync((await (await small.BookInAsync(small.Calcite)).SubmitAsync(Powder.CoarseCalcite)).Id);

    private static async Task ConcludeAsync(SmallLaboratory small, Investigation open, InvestigationConclusion conclusion, LaboratoryCauseKind? cause = null) =>
        await small.Get<InvestigationWork>().ConcludeAsync(small.People.QualityManager.Actor, open.Id, conclusion, cause, "As written", await small.ProofAsync(small.People.QualityManager), open.Version, default);
}
