using Microsoft.EntityFrameworkCore;
using ParticleLims.Analysis;
using ParticleLims.Analysis.Findings;
using ParticleLims.Laboratory.Specifications;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Runs;

/// <summary>A run with its evaluation.</summary>
public sealed record EvaluatedRun(Run Run, OpenedEvaluation Evaluation);

/// <summary>The result of a sample: its replicates that count, and their mean held against the specification.</summary>
/// <param name="SampleId">The sample.</param>
/// <param name="SampleCode">Its label code.</param>
/// <param name="Specification">The version it is held against.</param>
/// <param name="Replicates">Runs that count and have been evaluated.</param>
/// <param name="Complete">Whether every replicate that counts is in.</param>
/// <param name="Accepted">Whether a second person accepted every one of them.</param>
/// <param name="Limits">One verdict for each limit; empty until complete.</param>
/// <param name="Findings">Findings on the replicates together.</param>
public sealed record SampleResult(
    Guid SampleId, string SampleCode, SpecificationVersion Specification, IReadOnlyList<EvaluatedRun> Replicates, bool Complete, bool Accepted,
    IReadOnlyList<JudgedLimit> Limits, IReadOnlyList<string> Findings)
{
    /// <summary>Judges a sample from its runs as they are now.</summary>
    public static async Task<SampleResult> OfAsync(LaboratoryContext data, Guid sampleId, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(data);
        var tracked = data.Runs.Local.Any(run => run.SampleId == sampleId);
        var query = data.Runs.Where(run => run.SampleId == sampleId && run.RetestPlanId == null && run.State != RunState.Invalidated && run.State != RunState.Abandoned).OrderBy(run => run.Replicate);
        var runs = await (tracked ? query : query.AsNoTracking()).Include(run => run.Sieves).ToListAsync(cancellation);
        var counting = runs.Where(run => run.Counts).ToList();
        var specificationId = runs.Count == 0 ? throw new InvalidOperationException("A sample has runs.") : runs[0].SpecificationVersionId;
        var specification = await data.SpecificationVersions.AsNoTracking().Include(version => version.Limits).SingleAsync(version => version.Id == specificationId, cancellation);
        var evaluationIds = counting.Select(run => run.EvaluationId).OfType<Guid>().ToList();
        var stored = await data.Evaluations.AsNoTracking().Where(evaluation => evaluationIds.Contains(evaluation.Id)).ToListAsync(cancellation);
        stored.AddRange(data.Evaluations.Local.Where(local => evaluationIds.Contains(local.Id) && !stored.Exists(one => one.Id == local.Id)));
        return Of(sampleId, runs[0].SampleCode, specification, counting, stored);
    }

    private static SampleResult Of(Guid sampleId, string sampleCode, SpecificationVersion specification, List<Run> counting, List<Evaluation> stored)
    {
        var replicates = (from run in counting
                          where run.State is RunState.Submitted or RunState.Accepted
                          join evaluation in stored on run.EvaluationId equals evaluation.Id
                          select new EvaluatedRun(run, OpenedEvaluation.Of(evaluation))).ToList();
        var complete = counting.Count >= specification.DeterminationsBeside(1) && replicates.Count == counting.Count;
        var accepted = complete && counting.TrueForAll(run => run.State == RunState.Accepted);
        if (!complete)
        {
            return new SampleResult(sampleId, sampleCode, specification, replicates, Complete: false, Accepted: false, [], []);
        }

        var limits = specification.Limits.OrderBy(limit => limit.Position).ToList();
        var inputs = EvaluationJson.Read(replicates[0].Evaluation.Stored.Input).Limits;
        var mean = Engine.JudgeReplicates([.. replicates.Select(replicate => replicate.Evaluation.Result)], inputs);
        var judged = limits.Select((limit, index) => JudgedLimit.Of(specification.Combination, limit, mean, index, replicates)).ToList();
        return new SampleResult(sampleId, sampleCode, specification, replicates, complete, accepted, judged, [.. judged.SelectMany(one => one.Findings), .. mean.Findings.Where(finding => finding.Code != FindingCodes.ReplicatesApart).Select(finding => finding.Message)]);
    }
}
