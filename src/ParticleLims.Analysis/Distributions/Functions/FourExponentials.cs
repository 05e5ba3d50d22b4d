using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;

namespace ParticleLims.Analysis.Distributions.Functions;

/// <summary>
/// The two exponentials of four numbers at once: lane by lane the very operations of <see cref="Exponential"/> and <see cref="PolynomialExponential"/>, so the same bits. A chain of sums waits for
/// each sum before the next, and four chains beside each other wait no longer than one.
/// </summary>
internal static class FourExponentials
{
    /// <summary>Added to a whole number it puts the number, with a double's exponent for zero, into the low bits.</summary>
    private const double PowerBits = 4_503_599_627_370_496 + 1023;

    /// <summary>e to the power x by the series with divisions; for x from -700 to 700.</summary>
    public static Vector256<double> Of(Vector256<double> x)
    {
        var k = Vector256.Round(x / Vector256.Create(NaturalLogarithm.Ln2High + NaturalLogarithm.Ln2Low));
        return PowerOfTwo(k) * (Vector256<double>.One + Series(Rest(x, k)));
    }

    /// <summary>The same less one, without loss for small x.</summary>
    public static Vector256<double> MinusOne(Vector256<double> x)
    {
        var small = Vector256.LessThan(Vector256.Abs(x), Vector256.Create(0.35));
        var k = Vector256.Round(x / Vector256.Create(NaturalLogarithm.Ln2High + NaturalLogarithm.Ln2Low));
        var series = Series(Vector256.ConditionalSelect(small, x, Rest(x, k)));
        return Vector256.ConditionalSelect(small, series, (PowerOfTwo(k) * (Vector256<double>.One + series)) - Vector256<double>.One);
    }

    /// <summary>e to the power x by the polynomial; x beyond ±690 counts as ±690.</summary>
    public static Vector256<double> Polynomial(Vector256<double> x)
    {
        x = Bounded(x);
        var k = Vector256.Round(x * PolynomialExponential.OneOverLn2);
        return PowerOfTwo(k) * (Vector256<double>.One + Powers(Rest(x, k)));
    }

    /// <summary>The same less one, without loss for small x.</summary>
    public static Vector256<double> PolynomialMinusOne(Vector256<double> x)
    {
        var small = Vector256.LessThan(Vector256.Abs(x), Vector256.Create(0.35));
        x = Bounded(x);
        var k = Vector256.Round(x * PolynomialExponential.OneOverLn2);
        var powers = Powers(Vector256.ConditionalSelect(small, x, Rest(x, k)));
        return Vector256.ConditionalSelect(small, powers, (PowerOfTwo(k) * (Vector256<double>.One + powers)) - Vector256<double>.One);
    }

    private static Vector256<double> Bounded(Vector256<double> x) =>
        Vector256.Min(Vector256.Max(x, Vector256.Create(-PolynomialExponential.Farthest)), Vector256.Create(PolynomialExponential.Farthest));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector256<double> PowerOfTwo(Vector256<double> k) => Vector256.ShiftLeft((k + Vector256.Create(PowerBits)).AsInt64(), 52).AsDouble();

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector256<double> Rest(Vector256<double> x, Vector256<double> k) => x - (k * NaturalLogarithm.Ln2High) - (k * NaturalLogarithm.Ln2Low);

    private static Vector256<double> Series(Vector256<double> r)
    {
        var sum = Vector256<double>.Zero;
        for (var n = 17; n >= 2; n--)
        {
            sum = r / Vector256.Create((double)n) * (Vector256<double>.One + sum);
        }

        return r + (r * sum);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector256<double> Powers(Vector256<double> r)
    {
        var square = r * r;
        var low = Vector256.Create(1.0 / 2) + (r * (1.0 / 6)) + (square * (Vector256.Create(1.0 / 24) + (r * (1.0 / 120))));
        var middle = Vector256.Create(1.0 / 720) + (r * (1.0 / 5_040)) + (square * (Vector256.Create(1.0 / 40_320) + (r * (1.0 / 362_880))));
        var high = Vector256.Create(1.0 / 3_628_800) + (r * (1.0 / 39_916_800)) + (square * (Vector256.Create(1.0 / 479_001_600) + (r * (1.0 / 6_227_020_800))));
        var fourth = square * square;
        return r + (square * (low + (fourth * (middle + (fourth * high)))));
    }
}
