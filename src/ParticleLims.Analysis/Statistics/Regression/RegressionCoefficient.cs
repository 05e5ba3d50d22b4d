using ParticleLims.Analysis.Statistics.Probabilities;
using ParticleLims.Analysis.Statistics.Summaries;

namespace ParticleLims.Analysis.Statistics.Regression;

/// <summary>A coefficient of a linear model.</summary>
public sealed record RegressionCoefficient
{
    /// <summary>The estimate, in the ordinate's unit over that of its column.</summary>
    public required double Value { get; init; }

    /// <summary>Its standard error, in the value's unit; null where no degree of freedom is left.</summary>
    public required double? StandardError { get; init; }

    /// <summary>The degrees of freedom of the standard error.</summary>
    public required int DegreesOfFreedom { get; init; }

    /// <summary>The interval by Student's t; null where there is no standard error.</summary>
    /// <param name="confidence">Between 0 and 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">The confidence is not between 0 and 1.</exception>
    public Interval? IntervalAt(double confidence) => StandardError is { } error
        ? Interval.About(Value, StudentDistribution.TwoSided(confidence, DegreesOfFreedom) * error, confidence)
        : null;

    /// <summary>
    /// The probability of a coefficient as far from zero if the true one is zero, two-sided, between 0 and 1; null where there is no standard error or it is zero.
    /// </summary>
    public double? Probability => StandardError is > 0 and { } error ? StudentDistribution.Outside(Value / error, DegreesOfFreedom) : null;
}
