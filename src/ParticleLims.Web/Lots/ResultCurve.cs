using ParticleLims.Analysis.Distributions;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Laboratory.Runs;
using ParticleLims.Laboratory.Specifications;
using ParticleLims.Pictures.Plots;
using CurvePoint = ParticleLims.Pictures.Plots.CurvePoint;
using DistributionCurve = ParticleLims.Pictures.Plots.DistributionCurve;

namespace ParticleLims.Web.Lots;

/// <summary>The curve of a sample: its first replicate in front, the others behind, the specification's limits as gates.</summary>
internal static class ResultCurve
{
    /// <summary>What the picture shows.</summary>
    public static DistributionCurve Of(SampleResult result)
    {
        var front = result.Replicates[0];
        return new DistributionCurve
        {
            Title = $"Distribution of sample {result.SampleCode}, run {front.Run.Number}",
            Points = Points(front),
            Others = [.. result.Replicates.Skip(1).Select(replicate => new OtherCurve(replicate.Run.Number, Points(replicate)))],
            Gates = [.. result.Specification.Limits.OrderBy(limit => limit.Position).Select(Gate).OfType<CurveGate>()],
            Percentiles = [.. front.Evaluation.Result.Percentiles.Where(one => one.Relation == Relation.Equal).Select(one => new PercentileMark(string.Create(System.Globalization.CultureInfo.InvariantCulture, $"D{one.Percent:0.###}"), (double)one.Percent, one.Micrometres))],
        };
    }

    /// <summary>Every aperture that a replicate has, the finest first.</summary>
    public static IReadOnlyList<Aperture> Apertures(SampleResult result) => [.. result.Replicates.SelectMany(one => one.Evaluation.Result.Cuts).Select(cut => cut.Aperture).Distinct().Order()];

    /// <summary>Passing with two decimals; a dash where the replicate has no such sieve.</summary>
    public static string PassingAt(EvaluatedRun replicate, Aperture aperture) =>
        replicate.Evaluation.Result.Cuts.FirstOrDefault(cut => cut.Aperture == aperture)?.PassingPercent.ToString(2, Rounding.HalfEven) ?? "–";

    private static List<CurvePoint> Points(EvaluatedRun replicate) =>
        [.. replicate.Evaluation.Result.Cuts.Select(cut => new CurvePoint((double)cut.UsedAperture.Micrometres, cut.PassingPercent.ToDouble()))];

    private static CurveGate? Gate(Limit limit) => limit.Characteristic switch
    {
        LimitCharacteristic.Passing => CurveGate.AtAperture(limit.Bounds(), (double)limit.Aperture!.Value.Micrometres, (double?)limit.Lower, (double?)limit.Upper),
        LimitCharacteristic.Retained => CurveGate.AtAperture($"retained {limit.Bounds()}", (double)limit.Aperture!.Value.Micrometres, Passing(limit.Upper), Passing(limit.Lower)),
        LimitCharacteristic.Percentile => CurveGate.AtPassing(limit.Bounds(), (double)limit.Percent!.Value, (double?)limit.Lower, (double?)limit.Upper),
        _ => null,
    };

    private static double? Passing(decimal? retained) => retained is { } share ? (double)(100m - share) : null;
}
