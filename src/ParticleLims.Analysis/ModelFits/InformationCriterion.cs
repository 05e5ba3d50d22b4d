using ParticleLims.Analysis.Distributions.Functions;

namespace ParticleLims.Analysis.ModelFits;

/// <summary>
/// Akaike's information criterion with the correction for few points: Hurvich and Tsai, Biometrika 76 (1989) 297
/// (docs/science/information-criterion.md).
/// </summary>
internal static class InformationCriterion
{
    private const int WithVariance = 3;
    private const int WithoutVariance = 2;

    /// <summary>
    /// From residuals of unknown variance; the spread counts as a third parameter. <paramref name="logScale"/> is the sum over the points of
    /// ln(dQ/dy), which brings residuals y of a net back to percent.
    /// </summary>
    public static double? OfResiduals(double sumOfSquares, int points, double logScale = 0)
    {
        var mean = sumOfSquares / points;
        return mean > 1e-24 ? Corrected((points * NaturalLogarithm.Of(mean)) + (2 * logScale), WithVariance, points) : null;
    }

    /// <summary>From chi² with known uncertainties.</summary>
    public static double? OfChiSquare(double chiSquare, int points) => Corrected(chiSquare, WithoutVariance, points);

    private static double? Corrected(double deviance, int parameters, int points)
    {
        var spare = points - parameters - 1;
        return spare > 0 ? deviance + (2 * parameters) + (2.0 * parameters * (parameters + 1) / spare) : null;
    }
}
