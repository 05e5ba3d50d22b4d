namespace ParticleLims.Analysis.Statistics.Variance;

/// <summary>
/// Repeatability and what changing conditions add to it (docs/science/one-way-anova.md). Source: ISO 5725-2:1994, 7.4.5, and ISO 5725-3:1994, from memory: s_I² = s_r² + s_groups²,
/// a negative component counting as zero; the limits r and R are 2.8 times the deviations.
/// </summary>
public sealed record PrecisionEstimate
{
    private const double LimitFactor = 2.8;

    /// <summary>The repeatability standard deviation s_r, in the values' unit.</summary>
    public required double Repeatability { get; init; }

    /// <summary>The standard deviation between groups alone, in the values' unit; zero if the groups differ by no more than the scatter within explains.</summary>
    public required double BetweenGroups { get; init; }

    /// <summary>Whether the component between groups came out below zero and was set to zero.</summary>
    public required bool IsBetweenClamped { get; init; }

    /// <summary>The degrees of freedom of the repeatability.</summary>
    public required int DegreesOfFreedom { get; init; }

    /// <summary>
    /// The intermediate precision (groups are days, people or balances) or reproducibility (groups are laboratories) as a standard deviation, in the values' unit.
    /// </summary>
    public double Intermediate => Math.Sqrt((Repeatability * Repeatability) + (BetweenGroups * BetweenGroups));

    /// <summary>The difference that two results under repeatability conditions exceed in 1 of 20 cases, 2.8 s_r, in the values' unit.</summary>
    public double RepeatabilityLimit => LimitFactor * Repeatability;

    /// <summary>The same limit for two results from different groups, 2.8 s_I, in the values' unit.</summary>
    public double IntermediateLimit => LimitFactor * Intermediate;

    internal static PrecisionEstimate Of(double within, double between, int freedom) => new()
    {
        Repeatability = Math.Sqrt(within),
        BetweenGroups = Math.Sqrt(Math.Max(0, between)),
        IsBetweenClamped = between < 0,
        DegreesOfFreedom = freedom,
    };
}
