using ParticleLims.Analysis.Statistics.Arithmetic;
using ParticleLims.Analysis.Statistics.Probabilities;

namespace ParticleLims.Analysis.Statistics.Summaries;

/// <summary>
/// Student's t for pairs: do two laboratories, instruments or people differ on the same samples (docs/science/paired-comparison.md)? Source: Student, Biometrika 6 (1908) 1.
/// </summary>
public sealed record PairedComparison
{
    private PairedComparison()
    {
    }

    /// <summary>The mean of second less first, in the values' unit.</summary>
    public double MeanDifference { get; private init; }

    /// <summary>The standard deviation of the differences, in the values' unit.</summary>
    public double DifferenceDeviation { get; private init; }

    /// <summary>The interval of the mean difference.</summary>
    public Interval DifferenceInterval { get; private init; } = null!;

    /// <summary>The mean difference over its standard error, without unit; null if all differences are equal.</summary>
    public double? T { get; private init; }

    /// <summary>How many pairs less one.</summary>
    public int DegreesOfFreedom { get; private init; }

    /// <summary>The probability of so great a difference if there is none in truth, two-sided, between 0 and 1; null if all differences are equal.</summary>
    public double? Probability => T is { } t ? StudentDistribution.Outside(t, DegreesOfFreedom) : null;

    /// <summary>The comparison of two pairs or more.</summary>
    /// <param name="first">The one's values.</param>
    /// <param name="second">The other's values, in the same order.</param>
    /// <param name="confidence">Of the interval, between 0 and 1.</param>
    /// <exception cref="ArgumentException">Fewer than two pairs, lists of different length, or a number out of range.</exception>
    public static PairedComparison Of(IReadOnlyList<double> first, IReadOnlyList<double> second, double confidence = 0.95)
    {
        var differences = Differences(first, second);
        var (mean, deviation) = (differences.Mean, differences.StandardDeviation!.Value);
        return new PairedComparison
        {
            MeanDifference = mean,
            DifferenceDeviation = deviation,
            DifferenceInterval = differences.MeanInterval(confidence)!,
            T = deviation > 0 ? mean / differences.StandardError : null,
            DegreesOfFreedom = differences.Count - 1,
        };
    }

    internal static SampleSummary Differences(IReadOnlyList<double> first, IReadOnlyList<double> second)
    {
        var left = Given.Values(first, 2, nameof(first));
        var right = Given.Values(second, 2, nameof(second));
        Given.SameLength(first, second, nameof(second));
        return SampleSummary.Of(right.Select((value, i) => value - left[i]).ToArray());
    }
}
