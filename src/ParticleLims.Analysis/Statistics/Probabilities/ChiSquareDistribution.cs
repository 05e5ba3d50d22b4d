using ParticleLims.Analysis.Statistics.Arithmetic;

namespace ParticleLims.Analysis.Statistics.Probabilities;

/// <summary>The chi-square distribution (docs/science/probability-distributions.md).</summary>
internal static class ChiSquareDistribution
{
    /// <summary>The probability below x.</summary>
    public static double Below(double x, double freedom) => IncompleteGamma.Lower(Freedom.Checked(freedom) / 2, x / 2);

    /// <summary>The probability above x.</summary>
    public static double Above(double x, double freedom) => IncompleteGamma.Upper(Freedom.Checked(freedom) / 2, x / 2);

    /// <summary>The x below which the probability is p.</summary>
    public static double Quantile(double p, double freedom)
    {
        Given.Probability(p, nameof(p));
        return p <= 0.5
            ? QuantileSearch.FromZero(x => Below(x, freedom), p)
            : QuantileSearch.FromZero(x => -Above(x, freedom), p - 1);
    }
}
