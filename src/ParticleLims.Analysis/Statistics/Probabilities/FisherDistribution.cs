using ParticleLims.Analysis.Statistics.Arithmetic;

namespace ParticleLims.Analysis.Statistics.Probabilities;

/// <summary>Fisher's F distribution of the quotient of two variances (docs/science/probability-distributions.md).</summary>
internal static class FisherDistribution
{
    /// <summary>The probability above f.</summary>
    public static double Above(double f, double upperFreedom, double lowerFreedom)
    {
        var upper = Freedom.Checked(upperFreedom) * f;
        var lower = Freedom.Checked(lowerFreedom);
        if (double.IsPositiveInfinity(upper))
        {
            return 0;
        }

        return f <= 0 ? 1 : IncompleteBeta.Of(lowerFreedom / 2, upperFreedom / 2, lower / (lower + upper), upper / (lower + upper));
    }

    /// <summary>The f above which the probability is so small.</summary>
    public static double QuantileAbove(double probability, double upperFreedom, double lowerFreedom)
    {
        Given.Probability(probability, nameof(probability));
        return QuantileSearch.FromZero(f => -Above(f, upperFreedom, lowerFreedom), -probability);
    }
}
