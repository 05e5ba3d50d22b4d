using ParticleLims.Analysis.Distributions.Functions;
using ParticleLims.Analysis.Statistics.Arithmetic;

namespace ParticleLims.Analysis.Statistics.Probabilities;

/// <summary>Student's t distribution (docs/science/probability-distributions.md); with endless degrees of freedom the normal distribution.</summary>
internal static class StudentDistribution
{
    /// <summary>The probability above t.</summary>
    public static double Above(double t, double freedom)
    {
        if (double.IsPositiveInfinity(freedom))
        {
            return NormalDistribution.Below(-t);
        }

        var square = t * t;
        var both = IncompleteBeta.Of(Freedom.Checked(freedom) / 2, 0.5, freedom / (freedom + square), double.IsInfinity(square) ? 1 : square / (freedom + square));
        return t < 0 ? 1 - (both / 2) : both / 2;
    }

    /// <summary>The probability outside -|t| to |t|.</summary>
    public static double Outside(double t, double freedom) => 2 * Above(Math.Abs(t), freedom);

    /// <summary>The t above which the probability is so small; for 0.025 and endless degrees of freedom 1.96.</summary>
    public static double QuantileAbove(double probability, double freedom)
    {
        Given.Probability(probability, nameof(probability));
        if (double.IsPositiveInfinity(freedom))
        {
            return NormalDistribution.Quantile(1 - probability, probability);
        }

        return probability <= 0.5
            ? QuantileSearch.FromZero(t => -Above(t, freedom), -probability)
            : -QuantileAbove(1 - probability, freedom);
    }

    /// <summary>The t with which a two-sided interval of this confidence is made.</summary>
    public static double TwoSided(double confidence, double freedom) => QuantileAbove((1 - Given.Probability(confidence, nameof(confidence))) / 2, freedom);
}
