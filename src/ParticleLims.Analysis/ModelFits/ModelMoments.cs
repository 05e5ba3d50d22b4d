using ParticleLims.Analysis.Distributions.Functions;

namespace ParticleLims.Analysis.ModelFits;

/// <summary>
/// Moments of the mass distribution in closed form: x'^k Γ(1 + k/n), x50^k exp(k² s²/2) with s = 1/slope, k_top^k m/(m + k)
/// (docs/science/model-moments.md).
/// </summary>
internal static class ModelMoments
{
    /// <summary>Beyond it the moment is not a number.</summary>
    private const double Farthest = 690;

    /// <summary>Γ at more than this is beyond every double.</summary>
    private const double LargestArgument = 200;

    public static double? Of(Model model, double logSize, double slope, int k)
    {
        if (LogOfShape(model, slope, k) is not { } shape)
        {
            return null;
        }

        var logarithm = (k * logSize) + shape;
        return Math.Abs(logarithm) <= Farthest ? Exponential.Of(logarithm) : null;
    }

    private static double? LogOfShape(Model model, double slope, int k) => model switch
    {
        Model.RosinRammler => 1 + (k / slope) is > 1e-12 and < LargestArgument ? GammaFunction.LogOf(1 + (k / slope)) : null,
        Model.LogNormal => k * k / (2 * slope * slope),
        Model.GatesGaudinSchuhmann => slope + k > 1e-12 * slope ? -NaturalLogarithm.Of(1 + (k / slope)) : null,
        _ => throw new ArgumentOutOfRangeException(nameof(model), model, "The model is none of the named ones."),
    };
}
