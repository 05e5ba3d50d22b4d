using System.Globalization;
using System.Numerics;

namespace ParticleLims.Analysis.Quantities;

/// <summary>
/// An exact fraction of two whole numbers, in lowest terms with a positive denominator. Percentages are kept so,
/// because masses are whole micrograms: nothing is rounded until it is printed, and then once. Both numbers have 64 bits as long as they fit, and any length beyond.
/// </summary>
public readonly struct Ratio : IEquatable<Ratio>, IComparable<Ratio>
{
    private const long MostExact = 1L << 53;

    /// <summary>Ten to this power has 64 bits.</summary>
    private const int ShortScale = 18;

    private readonly long _numerator;

    /// <summary>The denominator less one, so that the default value is zero.</summary>
    private readonly long _beyondOne;
    private readonly LongFraction? _long;

    private Ratio(long numerator, long denominator) => (_numerator, _beyondOne) = (numerator, denominator - 1);

    private Ratio(LongFraction numbers) => _long = numbers;

    /// <summary>Zero; also the default value.</summary>
    public static Ratio Zero { get; }

    /// <summary>One.</summary>
    public static Ratio One { get; } = new(1, 1);

    /// <summary>One hundred: the whole, when the fraction counts in percent.</summary>
    public static Ratio Hundred { get; } = new(100, 1);

    /// <summary>The numerator, which carries the sign.</summary>
    public BigInteger Numerator => _long?.Numerator ?? _numerator;

    /// <summary>The denominator, greater than zero.</summary>
    public BigInteger Denominator => _long?.Denominator ?? ShortDenominator;

    /// <summary>-1, 0 or 1.</summary>
    public int Sign => _long?.Numerator.Sign ?? Math.Sign(_numerator);

    private long ShortDenominator => _beyondOne + 1;

    /// <summary>The fraction of two whole numbers, brought to lowest terms.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The denominator is zero.</exception>
    public static Ratio Of(BigInteger numerator, BigInteger denominator)
    {
        if (denominator.IsZero)
        {
            throw new ArgumentOutOfRangeException(nameof(denominator), "A fraction has a denominator other than zero.");
        }

        if (WholeNumbers.Fits(numerator) && WholeNumbers.Fits(denominator))
        {
            return Of((long)numerator, (long)denominator);
        }

        var divisor = BigInteger.GreatestCommonDivisor(numerator, denominator) * denominator.Sign;
        var (shorter, below) = (numerator / divisor, denominator / divisor);
        return WholeNumbers.Fits(shorter) && WholeNumbers.Fits(below) ? new Ratio((long)shorter, (long)below) : new Ratio(new LongFraction(shorter, below));
    }

    /// <summary>The same of two numbers that have 64 bits with either sign.</summary>
    internal static Ratio Of(long numerator, long denominator)
    {
        if (denominator == 0 || numerator == long.MinValue || denominator == long.MinValue)
        {
            return Of((BigInteger)numerator, denominator);
        }

        var divisor = WholeNumbers.GreatestDivisor(numerator, denominator) * Math.Sign(denominator);
        return new Ratio(numerator / divisor, denominator / divisor);
    }

    /// <summary>The quotient of two masses, without a unit.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The second mass is zero.</exception>
    public static Ratio Of(Mass part, Mass whole) => Of(part.Micrograms, whole.Micrograms);

    /// <summary>The decimal number, exactly.</summary>
    public static Ratio FromDecimal(decimal value)
    {
        Span<int> bits = stackalloc int[4];
        decimal.GetBits(value, bits);
        var scale = (bits[3] >> 16) & 0xFF;
        if (bits[2] == 0 && bits[1] >= 0 && scale <= ShortScale)
        {
            var digits = ((long)bits[1] << 32) | (uint)bits[0];
            return Of(bits[3] < 0 ? -digits : digits, PowerOfTen(scale));
        }

        var magnitude = ((BigInteger)(uint)bits[2] << 64) | ((BigInteger)(uint)bits[1] << 32) | (uint)bits[0];
        return Of(bits[3] < 0 ? -magnitude : magnitude, BigInteger.Pow(10, scale));
    }

    /// <summary>The binary number, exactly: no decimal reading of it is guessed.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not a finite number.</exception>
    public static Ratio FromDouble(double value)
    {
        if (!double.IsFinite(value))
        {
            throw new ArgumentOutOfRangeException(nameof(value), value, "Only a finite number is a fraction.");
        }

        var bits = BitConverter.DoubleToInt64Bits(value);
        var exponent = (int)((bits >> 52) & 0x7FF);
        var significand = bits & 0xF_FFFF_FFFF_FFFFL;
        BigInteger numerator = exponent == 0 ? significand : significand | 0x10_0000_0000_0000L;
        var power = Math.Max(exponent, 1) - 1075;
        numerator = bits < 0 ? -numerator : numerator;
        return power >= 0 ? Of(numerator << power, BigInteger.One) : Of(numerator, BigInteger.One << -power);
    }

    /// <summary>Reads what <see cref="ToString()"/> wrote: <c>numerator/denominator</c>.</summary>
    /// <exception cref="FormatException">Not two whole numbers parted by a stroke.</exception>
    public static Ratio Parse(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        var stroke = text.IndexOf('/', StringComparison.Ordinal);
        if (stroke < 0)
        {
            throw new FormatException("A fraction is written as numerator/denominator.");
        }

        return Of(
            BigInteger.Parse(text.AsSpan(0, stroke), NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture),
            BigInteger.Parse(text.AsSpan(stroke + 1), NumberStyles.None, CultureInfo.InvariantCulture));
    }

    /// <summary>The ratio as the nearest double, ties to the even significand.</summary>
    public double ToDouble()
    {
        // Both are doubles without loss, and a division of doubles rounds once, as is wanted here.
        if (_long is null && Math.Abs(_numerator) <= MostExact && ShortDenominator <= MostExact)
        {
            return (double)_numerator / ShortDenominator;
        }

        var magnitude = BigInteger.Abs(Numerator);
        var shift = 66 - (int)(magnitude.GetBitLength() - Denominator.GetBitLength());
        var (quotient, rest) = shift >= 0
            ? BigInteger.DivRem(magnitude << shift, Denominator)
            : BigInteger.DivRem(magnitude, Denominator << -shift);
        var surplus = (int)quotient.GetBitLength() - 53;
        var kept = quotient >> surplus;
        var cut = quotient - (kept << surplus);
        var half = BigInteger.One << (surplus - 1);
        if (cut > half || (cut == half && (!rest.IsZero || !kept.IsEven)))
        {
            kept += BigInteger.One;
        }

        return Sign * Math.ScaleB((double)(ulong)kept, surplus - shift);
    }

    /// <summary>The number with so many decimals, rounded once, culture invariant: <c>97.35</c>.</summary>
    /// <param name="digits">Decimals shown, from 0 to 20.</param>
    /// <param name="rounding">What happens to a tie.</param>
    /// <exception cref="ArgumentOutOfRangeException">Digits outside 0 to 20.</exception>
    public string ToString(int digits, Rounding rounding) => Print(RoundTo(digits, rounding), digits);

    /// <summary>The exact fraction as <c>numerator/denominator</c>.</summary>
    public override string ToString() => string.Create(CultureInfo.InvariantCulture, $"{Numerator}/{Denominator}");

    /// <summary>The number rounded once to so many decimals (0 to 20).</summary>
    /// <exception cref="ArgumentOutOfRangeException">Digits outside 0 to 20.</exception>
    public Ratio Round(int digits, Rounding rounding) => Of(RoundTo(digits, rounding), Scale(digits));

    /// <summary>The greatest number of so many decimals that is not above this one.</summary>
    internal Ratio Floor(int digits) => Of(FloorTo(Numerator, digits), Scale(digits));

    /// <summary>The smallest number of so many decimals that is not below this one.</summary>
    internal Ratio Ceiling(int digits) => Of(-FloorTo(-Numerator, digits), Scale(digits));

    private BigInteger FloorTo(BigInteger numerator, int digits)
    {
        var (quotient, rest) = BigInteger.DivRem(numerator * Scale(digits), Denominator);
        return rest.Sign < 0 ? quotient - BigInteger.One : quotient;
    }

    private BigInteger RoundTo(int digits, Rounding rounding)
    {
        var (quotient, rest) = BigInteger.DivRem(BigInteger.Abs(Numerator) * Scale(digits), Denominator);
        var tie = (rest * 2).CompareTo(Denominator);
        if (tie > 0 || (tie == 0 && (rounding == Rounding.HalfAwayFromZero || !quotient.IsEven)))
        {
            quotient += BigInteger.One;
        }

        return quotient * Sign;
    }

    private static long PowerOfTen(int power)
    {
        var value = 1L;
        for (var i = 0; i < power; i++)
        {
            value *= 10;
        }

        return value;
    }

    private static BigInteger Scale(int digits) => digits is >= 0 and <= 20
        ? BigInteger.Pow(10, digits)
        : throw new ArgumentOutOfRangeException(nameof(digits), digits, "Between 0 and 20 decimals are shown.");

    private static string Print(BigInteger scaled, int digits)
    {
        var text = BigInteger.Abs(scaled).ToString(CultureInfo.InvariantCulture).PadLeft(digits + 1, '0');
        var whole = text[..^digits];
        var sign = scaled.Sign < 0 ? "-" : string.Empty;
        return digits == 0 ? sign + whole : sign + whole + "." + text[^digits..];
    }

    /// <summary>The sum.</summary>
    public static Ratio operator +(Ratio left, Ratio right) => left._long is null && right._long is null && ShortSum(left, right, right._numerator) is { } sum
        ? sum
        : Of((left.Numerator * right.Denominator) + (right.Numerator * left.Denominator), left.Denominator * right.Denominator);

    /// <summary>The difference.</summary>
    public static Ratio operator -(Ratio left, Ratio right) => left._long is null && right._long is null && ShortSum(left, right, -right._numerator) is { } difference
        ? difference
        : Of((left.Numerator * right.Denominator) - (right.Numerator * left.Denominator), left.Denominator * right.Denominator);

    /// <summary>The product.</summary>
    public static Ratio operator *(Ratio left, Ratio right) => left._long is null && right._long is null && ShortProduct(left, right._numerator, right.ShortDenominator) is { } product
        ? product
        : Of(left.Numerator * right.Numerator, left.Denominator * right.Denominator);

    /// <summary>The quotient; the divisor is not zero.</summary>
    public static Ratio operator /(Ratio left, Ratio right) =>
        left._long is null && right._long is null && right._numerator != 0 && ShortProduct(left, right.ShortDenominator, right._numerator) is { } quotient
            ? quotient
            : Of(left.Numerator * right.Denominator, left.Denominator * right.Numerator);

    /// <summary>Whether the two are the same number.</summary>
    public static bool operator ==(Ratio left, Ratio right) => left.Equals(right);

    /// <summary>Whether the two differ.</summary>
    public static bool operator !=(Ratio left, Ratio right) => !left.Equals(right);

    /// <summary>Whether the left is smaller.</summary>
    public static bool operator <(Ratio left, Ratio right) => left.CompareTo(right) < 0;

    /// <summary>Whether the left is greater.</summary>
    public static bool operator >(Ratio left, Ratio right) => left.CompareTo(right) > 0;

    /// <summary>Whether the left is smaller or the same.</summary>
    public static bool operator <=(Ratio left, Ratio right) => left.CompareTo(right) <= 0;

    /// <summary>Whether the left is greater or the same.</summary>
    public static bool operator >=(Ratio left, Ratio right) => left.CompareTo(right) >= 0;

    /// <inheritdoc />
    public int CompareTo(Ratio other) => _long is null && other._long is null
        ? Math.BigMul(_numerator, other.ShortDenominator).CompareTo(Math.BigMul(other._numerator, ShortDenominator))
        : (Numerator * other.Denominator).CompareTo(other.Numerator * Denominator);

    /// <inheritdoc />
    public bool Equals(Ratio other) => _numerator == other._numerator && _beyondOne == other._beyondOne && _long == other._long;

    /// <inheritdoc />
    public override bool Equals(object? obj) => obj is Ratio other && Equals(other);

    /// <inheritdoc />
    public override int GetHashCode() => HashCode.Combine(_numerator, _beyondOne, _long);

    /// <summary>The sum with another numerator over the right denominator, by the greatest divisor of both denominators, so that the numbers stay short; null where they do not (Knuth, The Art of Computer Programming, 4.5.1).</summary>
    private static Ratio? ShortSum(Ratio left, Ratio right, long numerator)
    {
        var shared = WholeNumbers.GreatestDivisor(left.ShortDenominator, right.ShortDenominator);
        var (ofLeft, ofRight) = (left.ShortDenominator / shared, right.ShortDenominator / shared);
        var sum = Math.BigMul(left._numerator, ofRight) + Math.BigMul(numerator, ofLeft);
        if (!WholeNumbers.Fits(sum))
        {
            return null;
        }

        var divisor = shared == 1 ? 1 : WholeNumbers.GreatestDivisor((long)sum, shared);
        var denominator = Math.BigMul(ofLeft, right.ShortDenominator / divisor);
        return WholeNumbers.Fits(denominator) ? new Ratio((long)sum / divisor, (long)denominator) : null;
    }

    /// <summary>The product with another fraction in lowest terms, shortened before it is multiplied out; null where the numbers become too long.</summary>
    private static Ratio? ShortProduct(Ratio left, long numerator, long denominator)
    {
        var (over, under) = (WholeNumbers.GreatestDivisor(left._numerator, denominator), WholeNumbers.GreatestDivisor(numerator, left.ShortDenominator) * Math.Sign(denominator));
        var (above, below) = (Math.BigMul(left._numerator / over, numerator / under), Math.BigMul(left.ShortDenominator / under, denominator / over));
        return WholeNumbers.Fits(above) && WholeNumbers.Fits(below) ? new Ratio((long)above, (long)below) : null;
    }

    /// <summary>What does not fit into 64 bits.</summary>
    private sealed record LongFraction(BigInteger Numerator, BigInteger Denominator);
}
