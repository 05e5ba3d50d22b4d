namespace ParticleLims.Analysis.Distributions;

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
        var sum = 0.0;
        for (var n = 17; n >= 2; n--)
        {
            sum = r / n * (1 + sum);
        }

        return Math.ScaleB(1 + (r + (r * sum)), (int)k);
    }
}
