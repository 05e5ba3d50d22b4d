using System.Globalization;
using Microsoft.EntityFrameworkCore;
using ParticleLims.Analysis.Distributions;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Analysis.Statistics.Processes;
using ParticleLims.Laboratory.Specifications;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Runs;

/// <summary>
/// Holds a run against what its product showed before: the chart of individual values over the last accepted runs (NIST/SEMATECH e-Handbook 6.3.2.2). A value outside its limits is off the trend, also where it keeps
/// the specification.
/// </summary>
internal static class TrendWatching
{
    /// <summary>So many values make the limits; fewer say nothing (common practice, no source).</summary>
    public const int Fewest = 20;

    /// <summary>Older values count no more.</summary>
    public const int Most = 30;

    /// <summary>What is off the trend, in words; null where nothing is, or where too little is known.</summary>
    public static async Task<string?> OffTrendAsync(LaboratoryContext data, Run run, SampleResult result, CancellationToken cancellation)
    {
        if (result.Replicates.FirstOrDefault(replicate => replicate.Run.Id == run.Id) is not { } shown)
        {
            return null;
        }

        var before = await BeforeAsync(data, run, cancellation);
        if (before.Count < Fewest)
        {
            return null;
        }

        var limits = result.Specification.Limits.OrderBy(limit => limit.Position).ToList();
        var off = limits.Zip(shown.Evaluation.Result.Verdicts, (limit, verdict) => verdict is { Relation: Relation.Equal, Value: { } value } ? Words(limit, value, [.. before.Select(values => values.GetValueOrDefault(KeyOf(limit))).OfType<double>()]) : null).OfType<string>().ToList();
        return off.Count == 0 ? null : string.Join("; ", off);
    }

    private static string? Words(Limit limit, double value, List<double> before)
    {
        if (before.Count < Fewest)
        {
            return null;
        }

        var chart = IndividualsChart.From(before).Values;
        var digit = Math.Pow(10, -limit.Digits);
        if (!chart.IsOutside(value) || Math.Abs(value - chart.Centre) <= digit)
        {
            return null;
        }

        var format = "F" + limit.Digits.ToString(CultureInfo.InvariantCulture);
        string Say(double one) => one.ToString(format, CultureInfo.InvariantCulture);
        return string.Create(CultureInfo.InvariantCulture, $"{limit.Words} is {Say(value)}{(limit.Unit == "1" ? string.Empty : " " + limit.Unit)}; the last {before.Count} runs of this product lie around {Say(chart.Centre)}, and {Say(chart.Lower)} to {Say(chart.Upper)} is to be expected");
    }

    private static async Task<List<Dictionary<(LimitCharacteristic, Aperture?, decimal?), double?>>> BeforeAsync(LaboratoryContext data, Run run, CancellationToken cancellation)
    {
        var rows = await (
            from other in data.Runs
            where other.ProductId == run.ProductId && other.Id != run.Id && other.RetestPlanId == null && other.State == RunState.Accepted
            join evaluation in data.Evaluations on other.EvaluationId equals evaluation.Id
            orderby other.SubmittedAt descending
            select new { evaluation, other.SpecificationVersionId }).AsNoTracking().Take(Most).ToListAsync(cancellation);
        var versions = rows.Select(row => row.SpecificationVersionId).Distinct().ToList();
        var limits = (await data.Set<Limit>().AsNoTracking().Where(limit => versions.Contains(limit.SpecificationVersionId)).OrderBy(limit => limit.Position).ToListAsync(cancellation)).ToLookup(limit => limit.SpecificationVersionId);

        // In the order of time, because the moving ranges are those of neighbours.
        return [.. rows.AsEnumerable().Reverse().Select(row => ValuesOf(limits[row.SpecificationVersionId], OpenedEvaluation.Of(row.evaluation)))];
    }

    private static Dictionary<(LimitCharacteristic, Aperture?, decimal?), double?> ValuesOf(IEnumerable<Limit> limits, OpenedEvaluation evaluation) =>
        limits.Zip(evaluation.Result.Verdicts).Where(pair => pair.Second.Relation == Relation.Equal).DistinctBy(pair => KeyOf(pair.First)).ToDictionary(pair => KeyOf(pair.First), pair => pair.Second.Value);

    private static (LimitCharacteristic Characteristic, Aperture? Aperture, decimal? Percent) KeyOf(Limit limit) => (limit.Characteristic, limit.Aperture, limit.Percent);
}
