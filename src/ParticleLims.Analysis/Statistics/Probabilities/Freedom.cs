namespace ParticleLims.Analysis.Statistics.Probabilities;

/// <summary>Degrees of freedom, which need not be whole.</summary>
internal static class Freedom
{
    public static double Checked(double freedom) => freedom is >= 0.1 and <= 1e9
        ? freedom
        : throw new ArgumentOutOfRangeException(nameof(freedom), freedom, "The degrees of freedom lie between 0.1 and 1e9.");
}
