using ParticleLims.Analysis.Distributions.Functions;
using ParticleLims.Analysis.Statistics.Arithmetic;
using ParticleLims.Analysis.Statistics.Probabilities;
using ParticleLims.Analysis.Statistics.Summaries;

namespace ParticleLims.Analysis.Statistics.Processes;

/// <summary>
/// How a process fits between its limits (docs/science/capability.md). With the short-term standard deviation the indices are called Cp and Cpk, with that of all values Pp and Ppk; the
/// formulas are the same. Source: NIST/SEMATECH e-Handbook 6.1.6; the interval of Cp by chi-square from there; that of Cpk by Bissell, Applied Statistics 39 (1990) 331, from memory.
/// </summary>
public sealed record ProcessCapability
{
    private ProcessCapability()
    {
    }

    /// <summary>The width between the limits over six standard deviations, Cp or Pp; null with one limit.</summary>
    public CapabilityIndex? Potential { get; private init; }

    /// <summary>The distance of the mean from the nearer limit over three standard deviations, Cpk or Ppk; null if all limits are nature's.</summary>
    public CapabilityIndex? Actual { get; private init; }

    /// <summary>The distance from the lower limit over three standard deviations, without unit; null without such a limit.</summary>
    public double? FromLower { get; private init; }

    /// <summary>The distance from the upper limit over three standard deviations, without unit; null without such a limit.</summary>
    public double? FromUpper { get; private init; }

    /// <summary>The indices of a process.</summary>
    /// <param name="mean">Its mean, in the values' unit.</param>
    /// <param name="deviation">Its standard deviation, in the values' unit; above zero.</param>
    /// <param name="count">How many values the mean comes from: two or more.</param>
    /// <param name="freedom">The degrees of freedom of the standard deviation, 0.1 or more: n - 1 for that of all values; about 0.62 (n - 1) for moving ranges.</param>
    /// <param name="limits">One limit or two, the lower below the upper.</param>
    /// <param name="confidence">Of the intervals, between 0 and 1.</param>
    /// <exception cref="ArgumentException">No limit, limits in the wrong order, or a number out of range.</exception>
    public static ProcessCapability Of(double mean, double deviation, int count, double freedom, CapabilityLimits limits, double confidence = 0.95)
    {
        ArgumentNullException.ThrowIfNull(limits);
        Given.Value(mean, nameof(mean));
        Given.Positive(deviation, nameof(deviation));
        Given.Probability(confidence, nameof(confidence));
        ArgumentOutOfRangeException.ThrowIfLessThan(count, 2);
        Freedom.Checked(freedom);
        Check(limits);
        double? fromLower = limits.IsLowerNatural ? null : (mean - limits.Lower) / (3 * deviation);
        double? fromUpper = limits.IsUpperNatural ? null : (limits.Upper - mean) / (3 * deviation);
        return new ProcessCapability
        {
            FromLower = fromLower,
            FromUpper = fromUpper,
            Potential = (limits.Upper - limits.Lower) / (6 * deviation) is { } potential ? PotentialOf(potential, freedom, confidence) : null,
            Actual = Nearer(fromLower, fromUpper) is { } actual ? ActualOf(actual, count, freedom, confidence) : null,
        };
    }

    /// <summary>Pp and Ppk of values: the standard deviation is that of all of them.</summary>
    /// <param name="values">Two or more that are not all equal.</param>
    /// <param name="limits">One limit or two, the lower below the upper.</param>
    /// <param name="confidence">Of the intervals, between 0 and 1.</param>
    /// <exception cref="ArgumentException">Fewer than two values, all equal, no limit, or a number out of range.</exception>
    public static ProcessCapability Of(IReadOnlyList<double> values, CapabilityLimits limits, double confidence = 0.95)
    {
        Given.Enough(values, 2, nameof(values));
        var summary = SampleSummary.Of(values);
        return summary.StandardDeviation is > 0 and { } deviation
            ? Of(summary.Mean, deviation, values.Count, values.Count - 1, limits, confidence)
            : throw new ArgumentException("Values that are all equal have no capability.", nameof(values));
    }

    private static void Check(CapabilityLimits limits)
    {
        if (limits is { Lower: null, Upper: null } || limits.Lower >= limits.Upper)
        {
            throw new ArgumentException("There is at least one limit, and the lower one is below the upper one.", nameof(limits));
        }

        Given.Value(limits.Lower ?? 0, nameof(limits));
        Given.Value(limits.Upper ?? 0, nameof(limits));
    }

    private static double? Nearer(double? lower, double? upper) => lower is { } low && upper is { } high ? Math.Min(low, high) : lower ?? upper;

    private static CapabilityIndex PotentialOf(double value, double freedom, double confidence)
    {
        var tail = (1 - confidence) / 2;
        return new CapabilityIndex
        {
            Value = value,
            Interval = new Interval
            {
                Low = value * Math.Sqrt(ChiSquareDistribution.Quantile(tail, freedom) / freedom),
                High = value * Math.Sqrt(ChiSquareDistribution.Quantile(1 - tail, freedom) / freedom),
                Confidence = confidence,
            },
        };
    }

    private static CapabilityIndex ActualOf(double value, int count, double freedom, double confidence)
    {
        var z = NormalDistribution.Quantile((1 + confidence) / 2, (1 - confidence) / 2);
        var half = z * Math.Sqrt((1 / (9.0 * count)) + (value * value / (2 * freedom)));
        return new CapabilityIndex { Value = value, Interval = Interval.About(value, half, confidence) };
    }
}
