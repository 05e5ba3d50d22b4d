using ParticleLims.Analysis.Distributions.Functions;

namespace ParticleLims.Analysis.Statistics.Probabilities;

/// <summary>
/// The regularised incomplete gamma functions P(a, x) and Q(a, x) = 1 - P: series below a + 1 (Abramowitz and Stegun 6.5.29), continued fraction above it (6.5.31), by
/// Lentz's method. Relative error about 1e-13 for a up to 500 (docs/science/probability-distributions.md).
/// </summary>
internal static class IncompleteGamma
{
    private const double Tiny = 1e-300;
    private const int Longest = 100_000;

    public static double Lower(double a, double x)
    {
        if (x <= 0)
        {
            return 0;
        }

        return x < a + 1 ? Series(a, x) : 1 - Fraction(a, x);
    }

    public static double Upper(double a, double x)
    {
        if (x <= 0)
        {
            return 1;
        }

        return x < a + 1 ? 1 - Series(a, x) : Fraction(a, x);
    }

    private static double Series(double a, double x)
    {
        double term = 1 / a, sum = term;
        for (var n = 1; n < Longest && term > sum * 1e-17; n++)
        {
            term *= x / (a + n);
            sum += term;
        }

        return sum * Power(a, x);
    }

    private static double Fraction(double a, double x)
    {
        double b = x + 1 - a, c = 1 / Tiny, d = 1 / b, product = d;
        for (var n = 1; n < Longest; n++)
        {
            var step = -n * (n - a);
            b += 2;
            d = 1 / Away((step * d) + b);
            c = Away(b + (step / c));
            var factor = c * d;
            product *= factor;
            if (Math.Abs(factor - 1) < 1e-16)
            {
                break;
            }
        }

        return product * Power(a, x);
    }

    /// <summary>xᵃ e⁻ˣ / Γ(a).</summary>
    private static double Power(double a, double x)
    {
        var exponent = (a * NaturalLogarithm.Of(x)) - x - GammaFunction.LogOf(a);
        return exponent < -700 ? 0 : Exponential.Of(Math.Min(exponent, 700));
    }

    private static double Away(double value) => Math.Abs(value) < Tiny ? Tiny : value;
}
