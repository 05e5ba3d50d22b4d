using System.Collections.Immutable;

namespace ParticleLims.Analysis.Statistics.Regression;

/// <summary>A linear model fitted by ordinary least squares (docs/science/linear-regression.md).</summary>
public sealed record RegressionResult
{
    /// <summary>The coefficients in the order of the columns; for a polynomial the constant first.</summary>
    public required ImmutableArray<RegressionCoefficient> Coefficients { get; init; }

    /// <summary>The residual standard deviation, in the ordinate's unit; null where no degree of freedom is left.</summary>
    public required double? ResidualDeviation { get; init; }

    /// <summary>The degrees of freedom left, points less coefficients.</summary>
    public required int DegreesOfFreedom { get; init; }

    /// <summary>
    /// The share of the ordinate's sum of squares that the model explains, without unit; about the mean if the model has a constant, about zero if it has none. Null if
    /// there is no such sum to explain.
    /// </summary>
    public required double? RSquared { get; init; }

    /// <summary>
    /// The quotient of the variance explained and the residual one, without unit; null where one of them has no degree of freedom or the residual one is zero.
    /// </summary>
    public required double? F { get; init; }
}
