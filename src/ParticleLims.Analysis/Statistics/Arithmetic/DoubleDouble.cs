using System.Runtime.InteropServices;
using ParticleLims.Analysis.Quantities;

namespace ParticleLims.Analysis.Statistics.Arithmetic;

/// <summary>
/// A number as the unrounded sum of two doubles: about 31 decimal digits, from additions, multiplications, divisions and fused multiply-adds alone, so that it is
/// the same bits on every machine (docs/science/double-double.md). Source: Dekker, Numerische Mathematik 18 (1971) 224; Joldes, Muller and Popescu, ACM Transactions on
/// Mathematical Software 44 (2017) 15, algorithms 6 and 12.
/// </summary>
[StructLayout(LayoutKind.Auto)]
internal readonly record struct DoubleDouble(double High, double Low)
{
    public static DoubleDouble Zero { get; }

    public static DoubleDouble One { get; } = new(1, 0);

    /// <summary>The decimal number to 31 digits: a double alone would keep sixteen.</summary>
    public static DoubleDouble From(decimal value)
    {
        var exact = Ratio.FromDecimal(value);
        var high = exact.ToDouble();
        return new DoubleDouble(high, (exact - Ratio.FromDouble(high)).ToDouble());
    }

    public static implicit operator DoubleDouble(double value) => new(value, 0);

    /// <summary>The nearest double.</summary>
    public double ToDouble() => High + Low;

    public static DoubleDouble operator -(DoubleDouble value) => new(-value.High, -value.Low);

    public static DoubleDouble operator -(DoubleDouble left, DoubleDouble right) => left + -right;

    public static DoubleDouble operator +(DoubleDouble left, DoubleDouble right)
    {
        var (high, highError) = Sum(left.High, right.High);
        var (low, lowError) = Sum(left.Low, right.Low);
        var first = Ordered(high, highError + low);
        return Ordered(first.High, first.Low + lowError);
    }

    public static DoubleDouble operator *(DoubleDouble left, DoubleDouble right)
    {
        var high = left.High * right.High;
        var error = Math.FusedMultiplyAdd(left.High, right.High, -high);
        var cross = Math.FusedMultiplyAdd(left.Low, right.High, Math.FusedMultiplyAdd(left.High, right.Low, left.Low * right.Low));
        return Ordered(high, error + cross);
    }

    public static DoubleDouble operator /(DoubleDouble left, DoubleDouble right)
    {
        var first = left.High / right.High;
        var rest = left - (right * first);
        var second = rest.High / right.High;
        rest -= right * second;
        return (DoubleDouble)first + second + (rest.High / right.High);
    }

    /// <summary>The square root of a number that is not negative.</summary>
    public static DoubleDouble Sqrt(DoubleDouble value)
    {
        var root = Math.Sqrt(value.High);
        return root == 0 ? Zero : root + (DoubleDouble)((value - ((DoubleDouble)root * root)).High / (2 * root));
    }

    private static (double Sum, double Error) Sum(double left, double right)
    {
        var sum = left + right;
        var part = sum - left;
        return (sum, left - (sum - part) + (right - part));
    }

    /// <summary>The sum of two numbers of which the first is the greater in magnitude.</summary>
    private static DoubleDouble Ordered(double high, double low)
    {
        var sum = high + low;
        return new DoubleDouble(sum, low - (sum - high));
    }
}
