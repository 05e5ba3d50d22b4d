using ParticleLims.Analysis.Statistics.Arithmetic;
using ParticleLims.Analysis.Statistics.Probabilities;

namespace ParticleLims.Analysis.Statistics.Summaries;

/// <summary>
/// One standard deviation from several groups that differ in their means (docs/science/pooled-deviation.md): s² = Σ (nᵢ - 1) sᵢ² / Σ (nᵢ - 1). For duplicates it is
/// √(Σ d² / 2 p). Source: ISO 5725-2:1994, 7.4.5.1 (repeatability variance), from memory.
/// </summary>
public sealed record PooledDeviation
{
    private PooledDeviation()
    {
    }

    /// <summary>The pooled standard deviation, in the values' unit.</summary>
    public double StandardDeviation { get; private init; }

    /// <summary>The degrees of freedom, Σ (nᵢ - 1).</summary>
    public int DegreesOfFreedom { get; private init; }

    /// <summary>Pools the groups; those of one value tell nothing and count nothing.</summary>
    /// <exception cref="ArgumentException">No group of two values or more, an empty group, or a value that is not a number up to ±1e100.</exception>
    public static PooledDeviation Of(IReadOnlyList<IReadOnlyList<double>> groups)
    {
        Given.Enough(groups, 1, nameof(groups));
        var values = groups.Select(group => Given.Values(group, 1, nameof(groups))).ToList();
        var freedom = values.Sum(group => group.Length - 1);
        if (freedom == 0)
        {
            throw new ArgumentException("At least one group of two values is needed.", nameof(groups));
        }

        var squares = Sums.Of(values.Select(group => Sums.SquaresAbout(group, Sums.Mean(group))));
        return new PooledDeviation { StandardDeviation = DoubleDouble.Sqrt(squares / freedom).ToDouble(), DegreesOfFreedom = freedom };
    }

    /// <summary>The interval for the true standard deviation, by chi-square: s √(ν/χ²).</summary>
    /// <param name="confidence">Between 0 and 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">The confidence is not between 0 and 1.</exception>
    public Interval DeviationInterval(double confidence)
    {
        var tail = (1 - Given.Probability(confidence, nameof(confidence))) / 2;
        return new Interval
        {
            Low = StandardDeviation * Math.Sqrt(DegreesOfFreedom / ChiSquareDistribution.Quantile(1 - tail, DegreesOfFreedom)),
            High = StandardDeviation * Math.Sqrt(DegreesOfFreedom / ChiSquareDistribution.Quantile(tail, DegreesOfFreedom)),
            Confidence = confidence,
        };
    }
}
