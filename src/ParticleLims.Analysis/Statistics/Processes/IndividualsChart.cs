using System.Collections.Immutable;
using ParticleLims.Analysis.Statistics.Arithmetic;
using ParticleLims.Analysis.Statistics.Summaries;

namespace ParticleLims.Analysis.Statistics.Processes;

/// <summary>
/// Individual values and their moving ranges of two (docs/science/individuals-chart.md): σ is the mean moving range over 1.128, the limits of the values lie three σ from the mean, that
/// of the ranges at 3.267 times their mean. Source: NIST/SEMATECH e-Handbook 6.3.2.2, whose rounded constants are kept.
/// </summary>
public sealed record IndividualsChart
{
    private const double RangeOverSigma = 1.128;
    private const double UpperRangeFactor = 3.267;

    private IndividualsChart()
    {
    }

    /// <summary>Limits of the values.</summary>
    public ControlLimits Values { get; private init; } = null!;

    /// <summary>Limits of the moving ranges.</summary>
    public ControlLimits Ranges { get; private init; } = null!;

    /// <summary>The short-term standard deviation, in the values' unit.</summary>
    public double Sigma { get; private init; }

    /// <summary>The moving ranges of the values the limits come from, in the values' unit.</summary>
    public ImmutableArray<double> MovingRanges { get; private init; }

    /// <summary>The chart whose limits come from these values: a time when all went well.</summary>
    /// <exception cref="ArgumentException">Fewer than two values, or one that is not a number up to ±1e100.</exception>
    public static IndividualsChart From(IReadOnlyList<double> values)
    {
        Given.Enough(values, 2, nameof(values));
        var mean = SampleSummary.Of(values).Mean;
        var ranges = RangesOf(values);
        var range = SampleSummary.Of(ranges).Mean;
        var sigma = range / RangeOverSigma;
        return new IndividualsChart
        {
            Values = new ControlLimits { Lower = mean - (3 * sigma), Centre = mean, Upper = mean + (3 * sigma) },
            Ranges = new ControlLimits { Lower = 0, Centre = range, Upper = UpperRangeFactor * range },
            Sigma = sigma,
            MovingRanges = ranges,
        };
    }

    /// <summary>The places, from zero, of values outside the limits.</summary>
    public ImmutableArray<int> Outside(IReadOnlyList<double> values) => [.. Enumerable.Range(0, values.Count).Where(i => Values.IsOutside(values[i]))];

    /// <summary>The places, from one, of values whose distance from the value before is above the limit of the ranges.</summary>
    public ImmutableArray<int> RangesOutside(IReadOnlyList<double> values)
    {
        var ranges = RangesOf(values);
        return [.. Enumerable.Range(1, ranges.Length).Where(i => Ranges.IsOutside(ranges[i - 1]))];
    }

    private static ImmutableArray<double> RangesOf(IReadOnlyList<double> values) => [.. values.Skip(1).Select((value, i) => Math.Abs(value - values[i]))];
}
