using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Dispositions;
using ParticleLims.Laboratory.Investigations;
using ParticleLims.Laboratory.Lots;
using ParticleLims.Laboratory.Runs;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Today;

/// <summary>What waits for a quality manager's signature.</summary>
public enum SignatureNeed
{
    /// <summary>A reviewer wants a run invalidated.</summary>
    Invalidation,
    /// <summary>Hypothesis measurements are proposed.</summary>
    Hypothesis,
    /// <summary>Retests are proposed.</summary>
    Retests,
    /// <summary>Somebody asks for a decided lot to be opened again.</summary>
    Reopening,
}

/// <summary>Something that somebody proposed and a quality manager signs or declines.</summary>
/// <param name="Need">What it is.</param>
/// <param name="PlaceId">The run, the investigation or the lot on whose page it is signed.</param>
/// <param name="Name">Its number.</param>
/// <param name="Words">What is proposed.</param>
public sealed record SignatureWaiting(SignatureNeed Need, Guid PlaceId, string Name, string Words)
{
    internal static async Task<List<SignatureWaiting>> OfAsync(LaboratoryContext data, CancellationToken cancellation)
    {
        var invalidations = await data.Runs.Where(run => run.InvalidationProposed != null).OrderBy(run => run.Number).Take(TodayBoard.Most)
            .Select(run => new SignatureWaiting(SignatureNeed.Invalidation, run.Id, run.Number, run.InvalidationProposed!)).ToListAsync(cancellation);
        var hypotheses = await data.Set<Hypothesis>().Where(one => one.State == HypothesisState.Proposed).OrderBy(one => one.ProposedAt).Take(TodayBoard.Most)
            .Join(data.Investigations, one => one.InvestigationId, investigation => investigation.Id, (one, investigation) => new SignatureWaiting(SignatureNeed.Hypothesis, investigation.Id, investigation.Number, one.What)).ToListAsync(cancellation);
        var retests = await data.Set<RetestPlan>().Where(plan => plan.State == RetestPlanState.Proposed).OrderBy(plan => plan.ProposedAt).Take(TodayBoard.Most)
            .Join(data.Investigations, plan => plan.InvestigationId, investigation => investigation.Id, (plan, investigation) => new SignatureWaiting(SignatureNeed.Retests, investigation.Id, investigation.Number, plan.Portion)).ToListAsync(cancellation);
        return [.. invalidations, .. hypotheses, .. retests, .. await ReopeningsAsync(data, cancellation)];
    }

    // One that came after the lot's last decision; the next decision answers it.
    private static async Task<List<SignatureWaiting>> ReopeningsAsync(LaboratoryContext data, CancellationToken cancellation)
    {
        var asked = await data.Set<ReopeningProposal>()
            .Where(proposal => !data.Set<Disposition>().Any(decision => decision.LotId == proposal.LotId && decision.At > proposal.At))
            .Join(data.Lots.Where(lot => lot.State == LotState.Released || lot.State == LotState.Rejected || lot.State == LotState.ReleasedByConcession), proposal => proposal.LotId, lot => lot.Id, (proposal, lot) => new { proposal.At, lot.Id, lot.Number, proposal.Reason })
            .OrderBy(one => one.At).Take(TodayBoard.Most).ToListAsync(cancellation);
        return asked.ConvertAll(one => new SignatureWaiting(SignatureNeed.Reopening, one.Id, one.Number, one.Reason));
    }
}
