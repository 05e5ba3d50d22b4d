namespace ParticleLims.Analysis.Distributions.Functions;

/// <summary>
/// The exponential function for fits, which take it a hundred times each: the Taylor polynomial without a division, the same bits on every machine, accurate to about two units in the
/// last place. <see cref="Exponential"/> stays as it is, for the bits of what was stored hang on it (docs/science/elementary-functions.md).
/// </summary>
internal static class PolynomialExponential
{
    internal const double OneOverLn2 = 1.4426950408889634;
    internal const double Farthest = 690;

    /// <summary>e to the power x; x beyond ±690 counts as ±690.</summary>
    public static double Of(double x)
    {
        x = Math.Clamp(x, -Farthest, Farthest);
        var k = Math.Round(x * OneOverLn2);
        var r = x - (k * NaturalLogarithm.Ln2High) - (k * NaturalLogarithm.Ln2Low);
        return BitConverter.Int64BitsToDouble((long)(1023 + k) << 52) * (1 + Rest(r));
    }

    /// <summary>e to the power x, less one, without loss for small x.</summary>
    public static double MinusOne(double x) => Math.Abs(x) < 0.35 ? Rest(x) : Of(x) - 1;

    /// <summary>r + r²/2! + ... + r¹³/13! for |r| below 0.35.</summary>
    private static double Rest(double r)
    {
        var square = r * r;
        var low = (1.0 / 2) + (r * (1.0 / 6)) + (square * ((1.0 / 24) + (r * (1.0 / 120))));
        var middle = (1.0 / 720) + (r * (1.0 / 5_040)) + (square * ((1.0 / 40_320) + (r * (1.0 / 362_880))));
        var high = (1.0 / 3_628_800) + (r * (1.0 / 39_916_800)) + (square * ((1.0 / 479_001_600) + (r * (1.0 / 6_227_020_800))));
        var fourth = square * square;
        return r + (square * (low + (fourth * (middle + (fourth * high)))));
    }
}
