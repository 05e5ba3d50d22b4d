namespace ParticleLims.Analysis.Distributions;

/// <summary>
/// The natural logarithm from additions, multiplications and divisions alone. These are the same bits on every machine
/// (IEEE 754); the platform's own logarithm is not. Accurate to about one unit in the last place.
/// Source: ln((1+s)/(1-s)) = 2 (s + s³/3 + s⁵/5 + ...), Abramowitz and Stegun 4.1.27.
/// </summary>
internal static class NaturalLogarithm
{
    /// <summary>ln 2 in two parts; the first has so few bits that its multiples by an exponent are exact.</summary>
    internal const double Ln2High = 6.93147180369123816490e-01;
    internal const double Ln2Low = 1.90821492927058770002e-10;

    /// <summary>ln x for a positive normal number.</summary>
    public static double Of(double x)
    {
        var bits = BitConverter.DoubleToInt64Bits(x);
        var exponent = (int)(bits >> 52) - 1023;
        var mantissa = BitConverter.Int64BitsToDouble((bits & 0xF_FFFF_FFFF_FFFFL) | 0x3FF0_0000_0000_0000L);
        if (mantissa > 1.4142135623730951)
        {
            mantissa /= 2;
            exponent++;
        }

        return (exponent * Ln2High) + (Series(mantissa - 1) + (exponent * Ln2Low));
    }

    /// <summary>ln(1 + f) without loss for small f; f above -1.</summary>
    public static double OfOnePlus(double f) => f is > -0.29 and < 0.41 ? Series(f) : Of(1 + f);

    /// <summary>ln(1 + f) = f - (f²/2 - s (f²/2 + r)) with s = f / (2 + f), which keeps f itself out of the rounding.</summary>
    private static double Series(double f)
    {
        var s = f / (2 + f);
        var z = s * s;
        var sum = 0.0;
        for (var k = 25; k >= 3; k -= 2)
        {
            sum = z * ((2.0 / k) + sum);
        }

        var half = 0.5 * f * f;
        return f - (half - (s * (half + sum)));
    }
}
