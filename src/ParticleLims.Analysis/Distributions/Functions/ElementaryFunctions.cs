namespace ParticleLims.Analysis.Distributions.Functions;

/// <summary>
/// The natural logarithm from additions, multiplications and divisions alone. These are the same bits on every machine
/// (IEEE 754); the platform's own logarithm is not. Accurate to about one unit in the last place.
/// Source: ln((1+s)/(1-s)) = 2 (s + s³/3 + s⁵/5 + ...), Abramowitz and Stegun 4.1.27 (docs/science/elementary-functions.md).
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
        var sum = z * (2.0 / 25);
        sum = z * ((2.0 / 23) + sum);
        sum = z * ((2.0 / 21) + sum);
        sum = z * ((2.0 / 19) + sum);
        sum = z * ((2.0 / 17) + sum);
        sum = z * ((2.0 / 15) + sum);
        sum = z * ((2.0 / 13) + sum);
        sum = z * ((2.0 / 11) + sum);
        sum = z * ((2.0 / 9) + sum);
        sum = z * ((2.0 / 7) + sum);
        sum = z * ((2.0 / 5) + sum);
        sum = z * ((2.0 / 3) + sum);

        var half = 0.5 * f * f;
        return f - (half - (s * (half + sum)));
    }
}

/// <summary>
/// The exponential function from additions, multiplications and divisions alone, so that it is the same bits on every
/// machine. Accurate to about one unit in the last place. Source: its Taylor series after x = k ln 2 + r.
/// </summary>
internal static class Exponential
{
    /// <summary>e to the power x, for x from -700 to 700.</summary>
    public static double Of(double x)
    {
        if (x is not (>= -700 and <= 700))
        {
            throw new ArgumentOutOfRangeException(nameof(x), x, "The exponent lies between -700 and 700.");
        }

        var k = Math.Round(x / (NaturalLogarithm.Ln2High + NaturalLogarithm.Ln2Low));
        var r = x - (k * NaturalLogarithm.Ln2High) - (k * NaturalLogarithm.Ln2Low);
        return BitConverter.Int64BitsToDouble((long)(1023 + k) << 52) * (1 + Series(r));
    }

    /// <summary>e to the power x, less one, without loss for small x.</summary>
    public static double MinusOne(double x) => Math.Abs(x) < 0.35 ? Series(x) : Of(x) - 1;

    /// <summary>r + r²/2! + r³/3! + ... for |r| below 0.35.</summary>
    private static double Series(double r)
    {
        var sum = 0.0;
        for (var n = 17; n >= 2; n--)
        {
            sum = r / n * (1 + sum);
        }

        return r + (r * sum);
    }
}
