using ParticleLims.Laboratory.Investigations;
using ParticleLims.Laboratory.Lots;
using ParticleLims.Laboratory.Runs;
using ParticleLims.Laboratory.Tests.Record;
using static ParticleLims.Laboratory.Tests.Walks.RunDeeds;

namespace ParticleLims.Laboratory.Tests.Walks;

/// <summary>What is done in an investigation.</summary>
internal static class CaseDeeds
{
    private const Who Investigators = Who.Reviewer | Who.QualityManager | Who.LaboratoryManager;

    private static readonly InvestigationConclusion[] Conclusions = [InvestigationConclusion.Confirmed, InvestigationConclusion.LaboratoryCause, InvestigationConclusion.Inconclusive];

    public static IEnumerable<WalkDeed> All =>
    [
        new("answers the points of case", Investigators, SubjectKind.Case, "InvestigationWork.AnswerAsync/7")
        {
            Weight = 8, Variants = 2,
            Against = Closed,
            Changes = at => (at.Case.Answered, at.Case.CauseFound) = (true, at.Variant == 1),
            Act = async (hand, at) =>
            {
                foreach (var point in at.Case.Answered ? [PhasePoint.Division] : PhasePoints.All)
                {
                    var finding = point == PhasePoint.Division && at.Variant == 1 ? PointFinding.Found : PointFinding.InOrder;
                    await hand.Get<InvestigationWork>().AnswerAsync(hand.Of(at), hand.Case(at).Id, point, finding, "Looked at together", null, default);
                }
            },
        },
        new("opens the full phase of case", Investigators, SubjectKind.Case, "InvestigationWork.GoFullAsync/5")
        {
            Weight = 12,
            Against = at => [.. Closed(at), .. When(at.Case.State == InvestigationState.FullPhase, "full-phase"), .. When(!at.Case.Answered, "points-unanswered")],
            Changes = at => at.Case.State = InvestigationState.FullPhase,
            Act = (hand, at) => hand.Get<InvestigationWork>().GoFullAsync(hand.Of(at), hand.Case(at).Id, "No cause found in the laboratory", hand.Case(at).Version, default),
        },
        new("says that no other lot is touched in case", Investigators, SubjectKind.Case, "InvestigationWork.NoOtherLotsAsync/5")
        {
            Against = Closed,
            Changes = at => at.Case.OtherLotsSaid = true,
            Act = (hand, at) => hand.Get<InvestigationWork>().NoOtherLotsAsync(hand.Of(at), hand.Case(at).Id, "The lots around it conform", hand.Case(at).Version, default),
        },
        new("proposes retests in case", Investigators, SubjectKind.Case, "RetestWork.ProposeAsync/5")
        {
            Variants = 3, Weight = 5,
            Against = at => [.. Closed(at), .. When(at.Case.Plans.Exists(plan => plan.State != RetestPlanState.Withdrawn), "retest-plan-there")],
            Changes = at => at.Case.Plans.Add(new ModelPlan { Count = Math.Max(1, at.Variant), ProposedBy = at.Person, BySamePerson = at.Variant == 1 }),
            Act = (hand, at) => hand.Get<RetestWork>().ProposeAsync(
                hand.Of(at), hand.Case(at).Id, new RetestDraft(Math.Max(1, at.Variant), "The sealed second half", "Each against the limits, none averaged", at.Variant == 1 ? "Nobody else is on shift" : null), null, default),
        },
        new("approves the retests of case", Who.QualityManager, SubjectKind.Case, "RetestWork.ApproveAsync/5")
        {
            Weight = 15, Exists = at => at.Case.Plans.Count > 0,
            Against = at => [.. PlanWaits(at), .. When(at.IsOwn(at.Case.Plans[^1].ProposedBy == at.Person), "own-work")],
            Changes = at =>
            {
                var plan = at.Case.Plans[^1];
                plan.State = RetestPlanState.Approved;
                for (var count = 0; count < plan.Count; count++)
                {
                    at.Model.Plan(at.Case.Run.Sample, null, plan);
                }
            },
            Act = async (hand, at) => await hand.Get<RetestWork>().ApproveAsync(hand.Of(at), hand.Plan(at).Id, await hand.ProofAsync(at), hand.Plan(at).Version, default),
        },
        new("withdraws the retests of case", Investigators, SubjectKind.Case, "RetestWork.WithdrawAsync/5")
        {
            Weight = 5, Exists = at => at.Case.Plans.Count > 0,
            Against = PlanWaits,
            Changes = at => at.Case.Plans[^1].State = RetestPlanState.Withdrawn,
            Act = (hand, at) => hand.Get<RetestWork>().WithdrawAsync(hand.Of(at), hand.Plan(at).Id, "The second half was used up", hand.Plan(at).Version, default),
        },
        new("permits a new sample in case", Who.QualityManager, SubjectKind.Case, "RetestWork.PermitSampleAsync/6")
        {
            Weight = 6,
            Against = at => [.. Closed(at), .. OwnRuns(at), .. When(at.Case.Run.Sample.Lot.MayReplace is not null, "sample-permitted")],
            Changes = at => at.Case.Run.Sample.Lot.MayReplace = at.Case.Run.Sample,
            Act = async (hand, at) => await hand.Get<RetestWork>().PermitSampleAsync(hand.Of(at), hand.Case(at).Id, "The jar had stood open", await hand.ProofAsync(at), hand.Case(at).Version, default),
        },
        new("concludes case", Who.QualityManager, SubjectKind.Case, "InvestigationWork.ConcludeAsync/8")
        {
            Weight = 12, Variants = 3,
            Against = at => [.. Closed(at), .. OwnRuns(at), .. Unfinished(at), .. Conclusion(at)],
            Changes = Conclude,
            Act = async (hand, at) => await hand.Get<InvestigationWork>().ConcludeAsync(
                hand.Of(at), hand.Case(at).Id, Conclusions[at.Variant], at.Variant == 1 ? LaboratoryCauseKind.Preparation : null, "As the notes say", await hand.ProofAsync(at), hand.Case(at).Version, default),
        },
    ];

    private static IEnumerable<string> Closed(Moment at) => When(at.Case.State == InvestigationState.Closed, "investigation-closed");

    private static IEnumerable<string> PlanWaits(Moment at) => [.. Closed(at), .. When(at.Case.Plans[^1].State != RetestPlanState.Proposed, "retest-plan-state")];

    private static IEnumerable<string> OwnRuns(Moment at) => When(at.IsOwn(at.Model.Runs.Exists(run => run.Sample == at.Case.Run.Sample && run.Workers.Contains(at.Person))), "own-work");

    private static IEnumerable<string> Unfinished(Moment at) =>
    [
        .. When(!at.Case.Answered, "points-unanswered"),
        .. When(at.Case.Plans.Exists(plan => plan.State == RetestPlanState.Proposed), "retest-plan-open"),
        .. When(at.Model.Runs.Exists(run => run.Retest is { } plan && at.Case.Plans.Contains(plan) && run.State is not (RunState.Accepted or RunState.Abandoned)), "retests-open"),
    ];

    private static IEnumerable<string> Conclusion(Moment at) =>
    [
        .. When(at.Variant == 1 && !at.Case.CauseFound, "cause-undocumented"),
        .. When(at.Variant != 1 && at.Case.State == InvestigationState.LaboratoryPhase, "full-phase-missing"),
        .. When(at.Case.State == InvestigationState.FullPhase && !at.Case.OtherLotsSaid, "associated-lots-missing"),
    ];

    private static void Conclude(Moment at)
    {
        var (one, lot) = (at.Case, at.Case.Run.Sample.Lot);
        (one.State, one.Conclusion, one.RunsThen) = (InvestigationState.Closed, Conclusions[at.Variant], at.Model.Runs.Count);
        if (at.Variant == 1 && lot is { State: LotState.OnHold, HeldBesides: false } && at.Model.CasesOf(lot).All(other => other == one || other.Conclusion == InvestigationConclusion.LaboratoryCause))
        {
            lot.State = LotState.AwaitingResults;
        }
    }
}
