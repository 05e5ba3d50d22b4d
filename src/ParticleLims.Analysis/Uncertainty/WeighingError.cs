using ParticleLims.Analysis.Quantities;

namespace ParticleLims.Analysis.Uncertainty;

/// <summary>
/// What one weighing may be off: u_w² = s² + d²/12 + l²/3 with the balance's repeatability s (normal), readability d and linearity l (rectangular); in g
/// (docs/science/weighing-uncertainty.md).
/// </summary>
internal sealed class WeighingError(UncertaintyInput uncertainty)
{
    private const double MicrogramsPerGram = 1e6;
    private const double SqrtTwelve = 3.4641016151377544;
    private const double SqrtThree = 1.7320508075688772;

    /// <summary>The standard deviation of the normal part in g.</summary>
    public double Repeatability { get; } = Grams(uncertainty.BalanceRepeatability);

    /// <summary>The standard deviation of the rounding to the readability in g.</summary>
    public double Readability { get; } = Grams(uncertainty.Readability) / SqrtTwelve;

    /// <summary>The standard deviation of the linearity in g.</summary>
    public double Linearity { get; } = Grams(uncertainty.Linearity) / SqrtThree;

    /// <summary>The standard uncertainty in g.</summary>
    public double StandardUncertainty => Math.Sqrt((Repeatability * Repeatability) + (Readability * Readability) + (Linearity * Linearity));

    public static double Grams(Mass mass) => mass.Micrograms / MicrogramsPerGram;
}
