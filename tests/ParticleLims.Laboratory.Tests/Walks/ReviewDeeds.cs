using ParticleLims.Laboratory.Investigations;
using ParticleLims.Laboratory.Lots;
using ParticleLims.Laboratory.Review;
using ParticleLims.Laboratory.Runs;
using ParticleLims.Laboratory.Tests.Record;
using static ParticleLims.Laboratory.Tests.Walks.RunDeeds;

namespace ParticleLims.Laboratory.Tests.Walks;

/// <summary>What a second person does with a run.</summary>
internal static class ReviewDeeds
{
    public static IEnumerable<WalkDeed> All =>
    [
        new("accepts run", Who.Reviewer, SubjectKind.Run, "RunReview.AcceptAsync/5", "RunChanges.OpenAsync/3")
        {
            Weight = 25,
            Against = at => [.. When(at.Run.State != RunState.Submitted, "run-state"), .. OwnRun(at), .. When(at.Run.ProposedBy is not null, "invalidation-proposed"), .. When(!at.Run.WasSubmitted, "changes-unopened")],
            Changes = at =>
            {
                var (run, lot) = (Reviewed(at), at.Run.Sample.Lot);
                run.State = RunState.Accepted;
                if (lot.State == LotState.AwaitingResults && at.Model.ResultsAreIn(lot))
                {
                    lot.State = LotState.AwaitingDisposition;
                }
            },
            First = (hand, at) => hand.Get<RunChanges>().OpenAsync(hand.Of(at), hand.Run(at).Id, default),
            Act = async (hand, at) => await hand.Get<RunReview>().AcceptAsync(hand.Of(at), hand.Run(at).Id, await hand.ProofAsync(at), hand.Run(at).Version, default),
        },
        new("returns run", Who.Reviewer, SubjectKind.Run, "RunReview.ReturnAsync/5")
        {
            Weight = 15,
            Against = at => [.. When(at.Run.State != RunState.Submitted, "run-state"), .. OwnRun(at), .. When(at.Run.ProposedBy is not null, "invalidation-proposed"), .. ResultStands(at)],
            Changes = at => Reviewed(at).State = RunState.Returned,
            Act = (hand, at) => hand.Get<RunReview>().ReturnAsync(hand.Of(at), hand.Run(at).Id, "Look at the residue again", hand.Run(at).Version, default),
        },
        new("signs the invalidation of run", Who.Reviewer, SubjectKind.Run, "RunReview.InvalidateAsync/6")
        {
            Weight = 12,
            Against = at => [.. Invalidable(at), .. When(at.Run.ProposedBy is not null && !CauseFound(at), "invalidation-proposed")],
            Changes = at =>
            {
                var (run, found) = (Reviewed(at), CauseFound(at));
                if (found)
                {
                    at.Model.Invalidate(run);
                }
                else
                {
                    run.ProposedBy = at.Person;
                }
            },
            Act = async (hand, at) => await hand.Get<RunReview>().InvalidateAsync(hand.Of(at), hand.Run(at).Id, "The sieve's lid was not closed", await hand.ProofAsync(at), hand.Run(at).Version, default),
        },
        new("signs under the invalidation of run", Who.QualityManager, SubjectKind.Run, "RunReview.ConfirmInvalidationAsync/5")
        {
            Weight = 20,
            Against = at => [.. When(at.Run.ProposedBy is null, "invalidation-not-proposed"), .. Invalidable(at), .. When(at.IsOwn(at.Run.ProposedBy == at.Person), "own-work")],
            Changes = at => at.Model.Invalidate(at.Run),
            Act = async (hand, at) => await hand.Get<RunReview>().ConfirmInvalidationAsync(hand.Of(at), hand.Run(at).Id, await hand.ProofAsync(at), hand.Run(at).Version, default),
        },
        new("declines the invalidation of run", Who.QualityManager, SubjectKind.Run, "RunReview.DeclineInvalidationAsync/5")
        {
            Weight = 4,
            Against = at => When(at.Run.ProposedBy is null, "invalidation-not-proposed"),
            Changes = at => at.Run.ProposedBy = null,
            Act = (hand, at) => hand.Get<RunReview>().DeclineInvalidationAsync(hand.Of(at), hand.Run(at).Id, "The lid had no part in it", hand.Run(at).Version, default),
        },
    ];

    private static ModelRun Reviewed(Moment at)
    {
        at.Run.Reviewers.Add(at.Person);
        return at.Run;
    }

    private static IEnumerable<string> OwnRun(Moment at) => When(at.IsOwn(at.Run.Workers.Contains(at.Person)), "own-work");

    // While it is investigated it stays as it is; and where the investigation found no cause in the laboratory, its result stands.
    private static IEnumerable<string> ResultStands(Moment at) =>
    [
        .. When(at.Model.IsInvestigated(at.Run.Sample), "investigation-open"),
        .. When(at.Model.CasesOf(at.Run.Sample).LastOrDefault()?.Conclusion is InvestigationConclusion.Confirmed or InvestigationConclusion.Inconclusive, "no-laboratory-cause"),
    ];

    private static IEnumerable<string> Invalidable(Moment at) =>
        [.. When(at.Run.State is not (RunState.Submitted or RunState.Accepted), "run-state"), .. OwnRun(at), .. ResultStands(at), .. When(at.Run.Sample.Lot.IsDecided, "lot-closed")];

    // The quality manager's signature under the investigation counts for the runs that it looked at and for no later one.
    public static bool CauseFound(Moment at) => at.Model.CasesOf(at.Run.Sample).LastOrDefault() is { Conclusion: InvestigationConclusion.LaboratoryCause } last && at.Run.Number <= last.RunsThen;
}
