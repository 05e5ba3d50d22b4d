using ParticleLims.Analysis.Statistics.Arithmetic;
using ParticleLims.Analysis.Statistics.Probabilities;

namespace ParticleLims.Analysis.Statistics.Variance;

/// <summary>A line of an analysis of variance.</summary>
public sealed record VarianceLine
{
    /// <summary>The sum of squares, in the square of the values' unit.</summary>
    public required double SumOfSquares { get; init; }

    /// <summary>The degrees of freedom.</summary>
    public required int DegreesOfFreedom { get; init; }

    /// <summary>The mean square, in the square of the values' unit; zero without degrees of freedom.</summary>
    public double MeanSquare => DegreesOfFreedom > 0 ? SumOfSquares / DegreesOfFreedom : 0;

    internal static VarianceLine Of(DoubleDouble squares, int freedom) => new() { SumOfSquares = Math.Max(0, squares.ToDouble()), DegreesOfFreedom = freedom };

    /// <summary>The quotient of two mean squares; null where one has no degree of freedom or the lower is zero.</summary>
    internal double? Over(VarianceLine other) => DegreesOfFreedom > 0 && other is { DegreesOfFreedom: > 0, MeanSquare: > 0 } ? MeanSquare / other.MeanSquare : null;

    internal double? ProbabilityOver(VarianceLine other) => Over(other) is { } f ? FisherDistribution.Above(f, DegreesOfFreedom, other.DegreesOfFreedom) : null;

    internal VarianceLine And(VarianceLine other) => new() { SumOfSquares = SumOfSquares + other.SumOfSquares, DegreesOfFreedom = DegreesOfFreedom + other.DegreesOfFreedom };
}
