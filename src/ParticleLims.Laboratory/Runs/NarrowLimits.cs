using Microsoft.EntityFrameworkCore;
using ParticleLims.Analysis;
using ParticleLims.Laboratory.Documents;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Specifications;

namespace ParticleLims.Laboratory.Runs;

/// <summary>A limit that the laboratory's measurements can hardly tell apart: its bounds lie nearer to each other than twice the expanded uncertainty.</summary>
/// <param name="VersionId">The version of the specification.</param>
/// <param name="Limit">The limit.</param>
/// <param name="Expanded">The usual expanded uncertainty of the last accepted runs, in the limit's unit.</param>
/// <param name="Runs">Of how many runs.</param>
public sealed record NarrowLimit(Guid VersionId, Limit Limit, double Expanded, int Runs)
{
    /// <summary>For whoever approves.</summary>
    public string Warning => $"{Limit.Words}, {Limit.Bounds()}: narrower than twice the expanded uncertainty, which was {UncertaintyWords.PlusMinus(Expanded, Limit.Unit)} in the middle of the last {Runs} accepted runs.";
}

/// <summary>Holds the limits of specifications that wait for approval against the uncertainties of the product's last runs.</summary>
public sealed class NarrowLimits(ReadPath reading)
{
    private const int LastRuns = 10;

    /// <summary>The narrow limits of the drafts and the versions in approval of a specification; empty also where no run has an uncertainty yet.</summary>
    public Task<List<NarrowLimit>> OfAsync(Actor actor, Guid specificationId, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.SeeLaboratory, async (data, _, token) =>
        {
            var specification = await data.Specifications.Include(specification => specification.Versions).ThenInclude(version => version.Limits).FirstOrDefaultAsync(specification => specification.Id == specificationId, token)
                ?? throw new RefusedException("not-found", "There is no such specification.");
            var waiting = specification.Versions.Where(version => version.State is DocumentState.Draft or DocumentState.InApproval).ToList();
            if (waiting.Count == 0)
            {
                return [];
            }

            var inputs = await (from run in data.Runs
                                join evaluation in data.Evaluations on run.EvaluationId equals evaluation.Id
                                where run.ProductId == specification.ProductId && run.State == RunState.Accepted
                                orderby run.SubmittedAt descending
                                select evaluation.Input).Take(LastRuns).ToListAsync(token);
            var requests = inputs.ConvertAll(EvaluationJson.Read).FindAll(request => request.Uncertainty is not null);
            return waiting.SelectMany(version => Narrow(version, requests)).ToList();
        }, cancellation);

    private static IEnumerable<NarrowLimit> Narrow(SpecificationVersion version, List<EvaluationRequest> requests)
    {
        foreach (var limit in version.Limits.Where(limit => limit is { Lower: not null, Upper: not null }).OrderBy(limit => limit.Position))
        {
            var expanded = requests.Select(request => Expanded(request, limit)).OfType<double>().Order().ToList();
            if (expanded.Count > 0 && (double)(limit.Upper!.Value - limit.Lower!.Value) < 2 * expanded[expanded.Count / 2])
            {
                yield return new NarrowLimit(version.Id, limit, expanded[expanded.Count / 2], expanded.Count);
            }
        }
    }

    private static double? Expanded(EvaluationRequest request, Limit limit) =>
        Engine.Evaluate(request with { Limits = [RunRequest.LimitOf(limit, repeatabilityLimitPercent: null)] }) is Evaluated { Result.Verdicts: [{ ExpandedUncertainty: { } expanded }] } ? expanded : null;
}
