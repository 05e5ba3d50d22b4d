using ParticleLims.Analysis.Statistics.Arithmetic;
using ParticleLims.Analysis.Statistics.Probabilities;

namespace ParticleLims.Analysis.Statistics.Summaries;

/// <summary>
/// Mean, standard deviation and first autocorrelation of a series of values, summed in double-double about the first value (docs/science/sample-summary.md). Source: the
/// definitions of the NIST Statistical Reference Datasets, univariate; ISO 3534-1 for s with n - 1.
/// </summary>
public sealed record SampleSummary
{
    private SampleSummary()
    {
    }

    /// <summary>How many values.</summary>
    public int Count { get; private init; }

    /// <summary>The mean, in the values' unit.</summary>
    public double Mean { get; private init; }

    /// <summary>The standard deviation with n - 1, in the values' unit; null for a single value.</summary>
    public double? StandardDeviation { get; private init; }

    /// <summary>The correlation of each value with the next, without unit; null if all are equal.</summary>
    public double? LagOneCorrelation { get; private init; }

    /// <summary>The smallest value, in the values' unit.</summary>
    public double Smallest { get; private init; }

    /// <summary>The greatest value, in the values' unit.</summary>
    public double Greatest { get; private init; }

    /// <summary>The standard deviation of the mean, s / √n, in the values' unit; null for a single value.</summary>
    public double? StandardError => StandardDeviation / Math.Sqrt(Count);

    /// <summary>The summary of one value or more.</summary>
    /// <exception cref="ArgumentException">No value, or one that is not a number up to ±1e100.</exception>
    public static SampleSummary Of(IReadOnlyList<double> values) => Of(Given.Values(values, 1, nameof(values)));

    /// <summary>The same of decimal numbers, of which no digit is lost: for small differences of great values.</summary>
    /// <exception cref="ArgumentException">No value.</exception>
    public static SampleSummary Of(IReadOnlyList<decimal> values) => Of(Given.Values(values, 1, nameof(values)));

    /// <summary>The interval for the mean by Student's t; null for a single value.</summary>
    /// <param name="confidence">Between 0 and 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">The confidence is not between 0 and 1.</exception>
    public Interval? MeanInterval(double confidence) => StandardError is { } error
        ? Interval.About(Mean, StudentDistribution.TwoSided(confidence, Count - 1) * error, confidence)
        : null;

    internal static SampleSummary Of(DoubleDouble[] values)
    {
        var mean = Sums.Mean(values);
        var deviations = values.Select(value => value - mean).ToArray();
        var squares = Sums.Products(deviations, deviations);
        var doubles = values.Select(value => value.ToDouble()).ToList();
        return new SampleSummary
        {
            Count = values.Length,
            Mean = mean.ToDouble(),
            StandardDeviation = values.Length > 1 ? DoubleDouble.Sqrt(squares / (values.Length - 1)).ToDouble() : null,
            LagOneCorrelation = squares.High > 0 ? (Sums.Products(deviations[1..], deviations[..^1]) / squares).ToDouble() : null,
            Smallest = doubles.Min(),
            Greatest = doubles.Max(),
        };
    }
}
