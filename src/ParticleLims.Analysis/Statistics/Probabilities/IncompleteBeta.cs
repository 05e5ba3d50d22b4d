using ParticleLims.Analysis.Distributions.Functions;

namespace ParticleLims.Analysis.Statistics.Probabilities;

/// <summary>
/// The regularised incomplete beta function I_x(a, b) by its continued fraction (Abramowitz and Stegun 26.5.8) and Lentz's method; relative error
/// about 1e-13 for a and b up to 500 (docs/science/probability-distributions.md).
/// </summary>
internal static class IncompleteBeta
{
    private const double Tiny = 1e-300;
    private const double Shifted = 20;
    private const int Longest = 100_000;

    /// <summary>I_x(a, b).</summary>
    /// <param name="a">Above zero.</param>
    /// <param name="b">Above zero.</param>
    /// <param name="x">From 0 to 1.</param>
    /// <param name="rest">1 - x, given apart so that nothing is lost near one.</param>
    public static double Of(double a, double b, double x, double rest)
    {
        if (x <= 0 || rest <= 0)
        {
            return x <= 0 ? 0 : 1;
        }

        return x < (a + 1) / (a + b + 2) ? Power(a, b, x, rest) * Fraction(a, b, x) / a : 1 - (Power(a, b, x, rest) * Fraction(b, a, rest) / b);
    }

    private static double Fraction(double a, double b, double x)
    {
        double c = 1, d = 1 / Away(1 - ((a + b) * x / (a + 1))), product = d;
        for (var m = 1; m < Longest; m++)
        {
            var even = m * (b - m) * x / ((a + (2 * m) - 1) * (a + (2 * m)));
            d = 1 / Away(1 + (even * d));
            c = Away(1 + (even / c));
            product *= c * d;
            var odd = -(a + m) * (a + b + m) * x / ((a + (2 * m)) * (a + (2 * m) + 1));
            d = 1 / Away(1 + (odd * d));
            c = Away(1 + (odd / c));
            product *= c * d;
            if (Math.Abs((c * d) - 1) < 1e-16)
            {
                break;
            }
        }

        return product;
    }

    /// <summary>xᵃ (1-x)ᵇ / B(a, b).</summary>
    private static double Power(double a, double b, double x, double rest)
    {
        var exponent = (a * Log(x, rest)) + (b * Log(rest, x)) - LogBeta(a, b);
        return exponent < -700 ? 0 : Exponential.Of(exponent);
    }

    private static double Log(double x, double rest) => x < 0.6 ? NaturalLogarithm.Of(x) : NaturalLogarithm.OfOnePlus(-rest);

    /// <summary>ln B(a, b); the difference of the great logarithms is formed before they are rounded.</summary>
    private static double LogBeta(double a, double b)
    {
        var (great, small) = a >= b ? (a, b) : (b, a);
        if (great < Shifted)
        {
            return GammaFunction.LogOf(a) + GammaFunction.LogOf(b) - GammaFunction.LogOf(a + b);
        }

        var sum = great + small;
        return GammaFunction.LogOf(small) + small - ((great - 0.5) * NaturalLogarithm.OfOnePlus(small / great)) - (small * NaturalLogarithm.Of(sum))
            + Correction(great) - Correction(sum);
    }

    /// <summary>What Stirling's formula leaves out (Abramowitz and Stegun 6.1.41).</summary>
    private static double Correction(double z)
    {
        var square = 1 / (z * z);
        return ((1.0 / 12) - (square * ((1.0 / 360) - (square * ((1.0 / 1260) - (square / 1680)))))) / z;
    }

    private static double Away(double value) => Math.Abs(value) < Tiny ? Tiny : value;
}
