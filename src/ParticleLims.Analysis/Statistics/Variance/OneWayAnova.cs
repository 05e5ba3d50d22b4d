using ParticleLims.Analysis.Statistics.Arithmetic;

namespace ParticleLims.Analysis.Statistics.Variance;

/// <summary>
/// Do groups differ by more than the scatter within them (docs/science/one-way-anova.md)? Sums in double-double. Source: the formulas of the NIST Statistical Reference
/// Datasets, analysis of variance; the components by ISO 5725-2:1994, 7.4.5, from memory.
/// </summary>
public sealed record OneWayAnova
{
    private OneWayAnova()
    {
    }

    /// <summary>Between the groups' means.</summary>
    public VarianceLine Between { get; private init; } = null!;

    /// <summary>Within the groups.</summary>
    public VarianceLine Within { get; private init; } = null!;

    /// <summary>The quotient of the mean squares, without unit; null where one has no degree of freedom or nothing scatters within.</summary>
    public double? F => Between.Over(Within);

    /// <summary>The probability of so great an F if the groups do not differ, between 0 and 1; null as for F.</summary>
    public double? Probability => Between.ProbabilityOver(Within);

    /// <summary>The share of the sum of squares that lies between the groups, without unit; null if nothing scatters.</summary>
    public double? RSquared => Between.SumOfSquares + Within.SumOfSquares is > 0 and var total ? Between.SumOfSquares / total : null;

    /// <summary>The mean number of values in a group as the components need it, (Σn - Σn²/Σn) / (p - 1), without unit.</summary>
    public double MeanGroupSize { get; private init; }

    /// <summary>The scatter within groups (repeatability when a group is one day or one laboratory) and that of the groups; null if no group has two values.</summary>
    public PrecisionEstimate? Precision => Within.DegreesOfFreedom == 0 ? null : PrecisionEstimate.Of(
        Within.MeanSquare, (Between.MeanSquare - Within.MeanSquare) / MeanGroupSize, Within.DegreesOfFreedom);

    /// <summary>The analysis of two groups or more, of one value or more each.</summary>
    /// <exception cref="ArgumentException">Fewer than two groups, an empty group, or a value that is not a number up to ±1e100.</exception>
    public static OneWayAnova Of(IReadOnlyList<IReadOnlyList<double>> groups)
    {
        Given.Enough(groups, 2, nameof(groups));
        return Of(groups.Select(group => Given.Values(group, 1, nameof(groups))).ToList());
    }

    /// <summary>The same of decimal numbers, of which no digit is lost: for small differences of great values.</summary>
    /// <exception cref="ArgumentException">Fewer than two groups, or an empty group.</exception>
    public static OneWayAnova Of(IReadOnlyList<IReadOnlyList<decimal>> groups)
    {
        Given.Enough(groups, 2, nameof(groups));
        return Of(groups.Select(group => Given.Values(group, 1, nameof(groups))).ToList());
    }

    private static OneWayAnova Of(List<DoubleDouble[]> groups)
    {
        var count = groups.Sum(group => group.Length);
        var mean = Sums.Mean([.. groups.SelectMany(group => group)]);
        var means = groups.ConvertAll(Sums.Mean);
        var between = Sums.Of(groups.Select((group, i) => group.Length * (means[i] - mean) * (means[i] - mean)));
        var within = Sums.Of(groups.Select((group, i) => Sums.SquaresAbout(group, means[i])));
        return new OneWayAnova
        {
            Between = VarianceLine.Of(between, groups.Count - 1),
            Within = VarianceLine.Of(within, count - groups.Count),
            MeanGroupSize = (count - (groups.Sum(group => (double)group.Length * group.Length) / count)) / (groups.Count - 1),
        };
    }
}
