using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Investigations;
using ParticleLims.Laboratory.Lots;
using ParticleLims.Laboratory.People;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Runs;
using ParticleLims.Laboratory.Samples;
using ParticleLims.Laboratory.Settings;

namespace ParticleLims.Laboratory.Review;

/// <summary>A second person looks at a submitted run: accepts it by signature, returns it, or invalidates it with a cause.</summary>
public sealed class RunReview(WritePath writing)
{
    private static readonly DeedKind AcceptDeed = new("review.accept", "Run accepted", Permission.ReviewRuns);
    private static readonly DeedKind ReturnDeed = new("review.return", "Run returned", Permission.ReviewRuns, ReasonRequired: true);
    private static readonly DeedKind InvalidateDeed = new("review.invalidate", "Invalidation of a run signed", Permission.ReviewRuns, ReasonRequired: true);

    // Not of the family of reviews: whoever signs as quality manager may still decide on the lot.
    private static readonly DeedKind ConfirmDeed = new("invalidations.confirm", "Run invalidated", Permission.ConcludeInvestigations);
    private static readonly DeedKind DeclineDeed = new("invalidations.decline", "Invalidation of a run declined", Permission.ConcludeInvestigations, ReasonRequired: true);

    /// <summary>Accepts. When the lot's last replicate is accepted, the lot waits for its decision.</summary>
    public Task<bool> AcceptAsync(Actor actor, Guid runId, SecretProof proof, long version, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(AcceptDeed, actor), async (scope, token) =>
        {
            var run = await FindAsync(scope, runId, version);
            await RequireSecondPersonAsync(scope, run, token);
            await RunChanges.RequireOpenedAsync(scope, run, token);
            run.Accept();
            var evaluation = await scope.FindAsync<Evaluation>(run.EvaluationId!.Value, "evaluation", token);
            var signature = scope.Sign(proof, SignedReview.Reviewed, (nameof(Run), run.Id), SignedReview.ContentOf(run, evaluation));
            Write(scope, run, ReviewOutcome.Accepted, null, signature.Id);
            if ((await RunReading.ResultsOfLotAsync(scope.Data, run.LotId, token)).TrueForAll(result => result.Accepted))
            {
                (await scope.FindAsync<Lot>(run.LotId, "lot", token)).ResultsAreIn();
            }

            return true;
        }, cancellation);

    /// <summary>Returns the run to the bench with a reason; it goes on. A value out of specification is not weighed away: it goes back only when its investigation found a cause in the laboratory.</summary>
    public Task<bool> ReturnAsync(Actor actor, Guid runId, string reason, long version, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(ReturnDeed, actor, Reason: reason), async (scope, token) =>
        {
            var run = await FindAsync(scope, runId, version);
            await RequireSecondPersonAsync(scope, run, token);
            await RequireNoOpenInvestigationAsync(scope, run, token);
            await RequireCauseAsync(scope, run, token);
            run.Return(scope.Marked(reason.Trim()));
            Write(scope, run, ReviewOutcome.Returned, reason, null);
            return true;
        }, cancellation);

    /// <summary>
    /// Wants the run invalidated for an assignable cause, by signature. Where the quality manager has signed already that its investigation found a cause in the laboratory it is invalidated at once; else the
    /// quality manager's own signature is awaited. A value out of specification is never invalidated unless its investigation found such a cause. Answers whether it is invalidated now.
    /// </summary>
    public Task<bool> InvalidateAsync(Actor actor, Guid runId, string cause, SecretProof proof, long version, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(InvalidateDeed, actor, Reason: cause), async (scope, token) =>
        {
            var run = await FindAsync(scope, runId, version);
            await RequireSecondPersonAsync(scope, run, token);
            await RequireNoOpenInvestigationAsync(scope, run, token);
            var found = await RequireCauseAsync(scope, run, token);
            await RequireUndecidedAsync(scope, run, token);
            if (found)
            {
                await InvalidateAsync(scope, run, cause.Trim(), proof, token);
                return true;
            }

            run.ProposeInvalidation(scope.PersonId, cause.Trim());
            var signature = scope.Sign(proof, SignedReview.Proposed, (nameof(Run), run.Id), SignedReview.ProposalOf(run, cause.Trim()));
            Write(scope, run, ReviewOutcome.InvalidationProposed, cause, signature.Id);
            return false;
        }, cancellation);

    /// <summary>The quality manager's signature under a proposed invalidation: the run stays readable, counts in nothing, and a new one is planned.</summary>
    public Task<bool> ConfirmInvalidationAsync(Actor actor, Guid runId, SecretProof proof, long version, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(ConfirmDeed, actor), async (scope, token) =>
        {
            var run = await FindAsync(scope, runId, version);
            run.RequireProposed();
            await RequireSecondPersonAsync(scope, run, token);
            var onePerson = (await SettingsKeeping.OfAsync(scope.Data, token)).OnePersonLaboratory;
            SeparationOfDuties.Require(scope, onePerson, run.InvalidationProposedById, $"proposed to invalidate run {run.Number}");
            await RequireNoOpenInvestigationAsync(scope, run, token);
            await RequireCauseAsync(scope, run, token);
            await RequireUndecidedAsync(scope, run, token);
            await InvalidateAsync(scope, run, run.InvalidationProposed!, proof, token);
            return true;
        }, cancellation);

    /// <summary>The quality manager does not agree: the run stays as it is.</summary>
    public Task<bool> DeclineInvalidationAsync(Actor actor, Guid runId, string reason, long version, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(DeclineDeed, actor, Reason: reason), async (scope, _) =>
        {
            var run = await FindAsync(scope, runId, version);
            run.DeclineInvalidation();
            Write(scope, run, ReviewOutcome.InvalidationDeclined, reason, null);
            return true;
        }, cancellation);

    private static async Task InvalidateAsync(DeedScope scope, Run run, string cause, SecretProof proof, CancellationToken cancellation)
    {
        run.Invalidate(scope.Marked(cause));
        (await scope.FindAsync<Lot>(run.LotId, "lot", cancellation)).AwaitResults();

        // Where a new sample was taken because the first could not stand for the lot, the first is not sieved again.
        if (!await scope.Data.Samples.AnyAsync(sample => sample.ReplacesSampleId == run.SampleId, cancellation))
        {
            scope.Data.Add(run.Replacement(scope, await scope.NextNumberAsync("R", cancellation)));
        }
        else if (await AllOthersAcceptedAsync(scope, run, cancellation))
        {
            (await scope.FindAsync<Lot>(run.LotId, "lot", cancellation)).ResultsAreIn();
        }

        var signature = scope.Sign(proof, SignedReview.Invalidated, (nameof(Run), run.Id), SignedReview.CauseOf(run));
        Write(scope, run, ReviewOutcome.Invalidated, cause, signature.Id);
    }

    // The last result that was out is set aside, and every other one stands accepted: nothing will be accepted after it that could say so.
    private static async Task<bool> AllOthersAcceptedAsync(DeedScope scope, Run run, CancellationToken cancellation)
    {
        var others = await scope.Data.Runs.Where(other => other.LotId == run.LotId && other.Id != run.Id && other.RetestPlanId == null && other.State != RunState.Invalidated && other.State != RunState.Abandoned)
            .Select(other => other.State).ToListAsync(cancellation);
        return others.Count > 0 && others.TrueForAll(state => state == RunState.Accepted);
    }

    private static async Task RequireUndecidedAsync(DeedScope scope, Run run, CancellationToken cancellation)
    {
        var lot = await scope.FindAsync<Lot>(run.LotId, "lot", cancellation);
        if (lot.IsDecided)
        {
            throw new RefusedException("lot-closed", $"Lot {lot.Number} is {lot.State.Words()}: its runs stay as they are.");
        }
    }

    private static async Task<Run> FindAsync(DeedScope scope, Guid runId, long version)
    {
        var run = await scope.WholeRunAsync(runId);
        DeedScope.RequireVersion(run, version, run.Label);
        scope.About("Run", run.Id, run.Label);
        return run;
    }

    private static async Task RequireSecondPersonAsync(DeedScope scope, Run run, CancellationToken cancellation)
    {
        var onePerson = (await SettingsKeeping.OfAsync(scope.Data, cancellation)).OnePersonLaboratory;
        var tookPart = await SeparationOfDuties.DidAsync(scope, [run.Id], RunsTables.DeedFamily, cancellation) || run.Weighings.Exists(weighing => weighing.ConfirmedById == scope.PersonId);
        SeparationOfDuties.Require(scope, onePerson, tookPart ? scope.PersonId : null, $"took part in run {run.Number}");
    }

    private static async Task RequireNoOpenInvestigationAsync(DeedScope scope, Run run, CancellationToken cancellation)
    {
        var open = await scope.Data.OfSampleOf(run).Where(one => one.State != InvestigationState.Closed).Select(one => one.Number).FirstOrDefaultAsync(cancellation);
        if (open is not null)
        {
            throw new RefusedException("investigation-open", $"Run {run.Number} is under investigation {open}. Until that is concluded it stays as it is.");
        }
    }

    // Whether an investigation found a cause in the laboratory for this run; false where there was none, and for a run that was planned after it: of that one the quality manager has signed nothing.
    private static async Task<bool> RequireCauseAsync(DeedScope scope, Run run, CancellationToken cancellation)
    {
        var last = await scope.Data.OfSampleOf(run).OrderByDescending(one => one.OpenedAt).ThenByDescending(one => one.Number).Select(one => new { one.Conclusion, one.ClosedAt }).FirstOrDefaultAsync(cancellation);
        if (last?.Conclusion is InvestigationConclusion.Confirmed or InvestigationConclusion.Inconclusive)
        {
            throw new RefusedException("no-laboratory-cause", $"The investigation of run {run.Number} found no cause in the laboratory: its result stands.");
        }

        return last?.Conclusion == InvestigationConclusion.LaboratoryCause && run.PlannedAt <= last.ClosedAt;
    }

    private static void Write(DeedScope scope, Run run, ReviewOutcome outcome, string? reason, Guid? signatureId) =>
        scope.Data.Add(new ReviewEntry { Id = scope.NewId(), RunId = run.Id, At = scope.Now, ReviewerId = scope.PersonId, ReviewerName = scope.Marked(scope.By.Name), Outcome = outcome, Reason = reason?.Trim(), SignatureId = signatureId });
}
