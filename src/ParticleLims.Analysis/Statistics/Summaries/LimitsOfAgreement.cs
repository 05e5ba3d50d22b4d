using ParticleLims.Analysis.Statistics.Arithmetic;
using ParticleLims.Analysis.Statistics.Probabilities;

namespace ParticleLims.Analysis.Statistics.Summaries;

/// <summary>
/// Between which limits do nearly all differences of two methods lie, and how sure are the limits (docs/science/limits-of-agreement.md)? Source: Bland and Altman, Lancet 327 (1986) 307, and
/// Statistical Methods in Medical Research 8 (1999) 135: u² of a limit = s² (1/n + k² / (2 (n - 1))).
/// </summary>
public sealed record LimitsOfAgreement
{
    private LimitsOfAgreement()
    {
    }

    /// <summary>The mean of second less first, in the values' unit.</summary>
    public double Bias { get; private init; }

    /// <summary>The standard deviation of the differences, in the values' unit.</summary>
    public double DifferenceDeviation { get; private init; }

    /// <summary>The interval of the bias, by Student's t.</summary>
    public Interval BiasInterval { get; private init; } = null!;

    /// <summary>Bias - k s, in the values' unit.</summary>
    public double LowerLimit { get; private init; }

    /// <summary>The interval of the lower limit.</summary>
    public Interval LowerInterval { get; private init; } = null!;

    /// <summary>Bias + k s, in the values' unit.</summary>
    public double UpperLimit { get; private init; }

    /// <summary>The interval of the upper limit.</summary>
    public Interval UpperInterval { get; private init; } = null!;

    /// <summary>The slope of the differences over the means of the pairs, without unit; far from zero the limits depend on the size. Null if all means are equal.</summary>
    public double? SlopeOverMean { get; private init; }

    /// <summary>The limits from three pairs or more.</summary>
    /// <param name="first">The one's values.</param>
    /// <param name="second">The other's values, in the same order.</param>
    /// <param name="factor">k: 1.96 for limits that hold 95 % of the differences; above zero.</param>
    /// <param name="confidence">Of the intervals, between 0 and 1.</param>
    /// <exception cref="ArgumentException">Fewer than three pairs, lists of different length, or a number out of range.</exception>
    public static LimitsOfAgreement Of(IReadOnlyList<double> first, IReadOnlyList<double> second, double factor = 1.96, double confidence = 0.95)
    {
        Given.Enough(first, 3, nameof(first));
        Given.Positive(factor, nameof(factor));
        var differences = PairedComparison.Differences(first, second);
        var (bias, s, n) = (differences.Mean, differences.StandardDeviation!.Value, differences.Count);
        var half = StudentDistribution.TwoSided(confidence, n - 1) * s * Math.Sqrt((1.0 / n) + (factor * factor / (2 * (n - 1))));
        return new LimitsOfAgreement
        {
            Bias = bias,
            DifferenceDeviation = s,
            BiasInterval = differences.MeanInterval(confidence)!,
            LowerLimit = bias - (factor * s),
            LowerInterval = Interval.About(bias - (factor * s), half, confidence),
            UpperLimit = bias + (factor * s),
            UpperInterval = Interval.About(bias + (factor * s), half, confidence),
            SlopeOverMean = Slope(first, second),
        };
    }

    private static double? Slope(IReadOnlyList<double> first, IReadOnlyList<double> second)
    {
        var means = first.Select((value, i) => ((DoubleDouble)value + second[i]) * 0.5).ToArray();
        var differences = first.Select((value, i) => (DoubleDouble)second[i] - value).ToArray();
        var middle = Sums.Mean(means);
        var deviations = means.Select(mean => mean - middle).ToArray();
        var spread = Sums.Products(deviations, deviations);
        return spread.High > 0 ? (Sums.Products(deviations, differences) / spread).ToDouble() : null;
    }
}
