using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace ParticleLims.Analysis.Uncertainty.Trials;

/// <summary>Sums and ends of many numbers, in an order that is the same on every machine: sixteen sums beside each other, added up at the end, and what is left over one after the other.</summary>
internal static class VectorSums
{
    private const int Together = 4;

    /// <summary>The least and the greatest of finite numbers, of which there is at least one.</summary>
    public static (double Least, double Most) Ends(ReadOnlySpan<double> values)
    {
        var vectors = MemoryMarshal.Cast<double, Vector256<double>>(values);
        var (least, most) = (Vector256.Create(values[0]), Vector256.Create(values[0]));
        var (other, another) = (least, most);
        var pairs = vectors.Length / 2 * 2;
        for (var i = 0; i < pairs; i += 2)
        {
            // Two of each, so that one need not wait for the other; the numbers are finite, so that the processor's own comparison will do.
            least = Vector256.MinNative(least, vectors[i]);
            most = Vector256.MaxNative(most, vectors[i]);
            other = Vector256.MinNative(other, vectors[i + 1]);
            another = Vector256.MaxNative(another, vectors[i + 1]);
        }

        (least, most) = (Vector256.Min(least, other), Vector256.Max(most, another));
        foreach (var value in values[(pairs * Vector256<double>.Count)..])
        {
            least = Vector256.Min(least, Vector256.Create(value));
            most = Vector256.Max(most, Vector256.Create(value));
        }

        return (
            Math.Min(Math.Min(least[0], least[1]), Math.Min(least[2], least[3])),
            Math.Max(Math.Max(most[0], most[1]), Math.Max(most[2], most[3])));
    }

    /// <summary>The sum.</summary>
    public static double Sum(ReadOnlySpan<double> values)
    {
        var vectors = MemoryMarshal.Cast<double, Vector256<double>>(values);
        var (a, b, c, d) = (Vector256<double>.Zero, Vector256<double>.Zero, Vector256<double>.Zero, Vector256<double>.Zero);
        var whole = vectors.Length / Together * Together;
        for (var i = 0; i < whole; i += Together)
        {
            a += vectors[i];
            b += vectors[i + 1];
            c += vectors[i + 2];
            d += vectors[i + 3];
        }

        var sum = Total(a + b + (c + d));
        foreach (var value in values[(whole * Vector256<double>.Count)..])
        {
            sum += value;
        }

        return sum;
    }

    /// <summary>The sum of squares about a number.</summary>
    public static double Squares(ReadOnlySpan<double> values, double about)
    {
        var vectors = MemoryMarshal.Cast<double, Vector256<double>>(values);
        var (a, b) = (Vector256<double>.Zero, Vector256<double>.Zero);
        var whole = vectors.Length / 2 * 2;
        for (var i = 0; i < whole; i += 2)
        {
            var (one, other) = (vectors[i] - Vector256.Create(about), vectors[i + 1] - Vector256.Create(about));
            a += one * one;
            b += other * other;
        }

        var sum = Total(a + b);
        foreach (var value in values[(whole * Vector256<double>.Count)..])
        {
            sum += (value - about) * (value - about);
        }

        return sum;
    }

    /// <summary>Whether every number is finite.</summary>
    public static bool AllFinite(ReadOnlySpan<double> values)
    {
        // A number less itself is zero, an infinite one or none is not.
        var sum = Vector256<double>.Zero;
        var vectors = MemoryMarshal.Cast<double, Vector256<double>>(values);
        foreach (var vector in vectors)
        {
            sum += vector - vector;
        }

        var rest = Total(sum);
        foreach (var value in values[(vectors.Length * Vector256<double>.Count)..])
        {
            rest += value - value;
        }

        return rest == 0;
    }

    private static double Total(Vector256<double> sums) => sums[0] + sums[1] + (sums[2] + sums[3]);
}
