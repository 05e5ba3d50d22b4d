using System.Numerics;

namespace ParticleLims.Analysis.Quantities;

/// <summary>Whole numbers of 64 bits, as nearly every fraction of two masses needs no longer ones.</summary>
internal static class WholeNumbers
{
    /// <summary>Whether a long whole number and its negative both fit into 64 bits.</summary>
    public static bool Fits(BigInteger value) => value <= long.MaxValue && value >= -long.MaxValue;

    /// <inheritdoc cref="Fits(BigInteger)" />
    public static bool Fits(Int128 value) => value <= long.MaxValue && value >= -long.MaxValue;

    /// <summary>The greatest number that divides both; the other where one is zero. By halving: Stein, Journal of Computational Physics 1 (1967) 397.</summary>
    public static long GreatestDivisor(long left, long right)
    {
        var (a, b) = ((ulong)Math.Abs(left), (ulong)Math.Abs(right));
        if (a <= 1 || b <= 1)
        {
            return a == 0 ? (long)b : b == 0 ? (long)a : 1;
        }

        var shared = BitOperations.TrailingZeroCount(a | b);
        a >>= BitOperations.TrailingZeroCount(a);
        while (b != 0)
        {
            b >>= BitOperations.TrailingZeroCount(b);
            (a, b) = (Math.Min(a, b), Math.Max(a, b) - Math.Min(a, b));
        }

        return (long)(a << shared);
    }
}
