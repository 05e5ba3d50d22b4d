using System.Globalization;

namespace ParticleLims.Analysis.Quantities;

/// <summary>A mass in whole micrograms: exact, so that sums and differences of weighings carry no rounding.</summary>
public readonly record struct Mass : IComparable<Mass>
{
    private const decimal MicrogramsPerGram = 1_000_000m;

    private Mass(long micrograms) => Micrograms = micrograms;

    /// <summary>No mass at all.</summary>
    public static Mass Zero { get; }

    /// <summary>The mass in micrograms (µg).</summary>
    public long Micrograms { get; }

    /// <summary>The mass in grams (g), exactly.</summary>
    public decimal Grams => Micrograms / MicrogramsPerGram;

    /// <summary>A mass of so many micrograms (µg).</summary>
    public static Mass FromMicrograms(long micrograms) => new(micrograms);

    /// <summary>A mass of so many grams (g). The value must be a whole number of micrograms.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The value is finer than one microgram or beyond ±9 × 10¹² g.</exception>
    public static Mass FromGrams(decimal grams)
    {
        if (decimal.Abs(grams) > 9_000_000_000_000m)
        {
            throw new ArgumentOutOfRangeException(nameof(grams), grams, "A mass lies between -9e12 g and 9e12 g.");
        }

        var micrograms = grams * MicrogramsPerGram;
        if (micrograms != decimal.Truncate(micrograms))
        {
            throw new ArgumentOutOfRangeException(nameof(grams), grams, "A mass is kept to the microgram: give at most six decimals of a gram.");
        }

        return new Mass((long)micrograms);
    }

    /// <summary>The sum of two masses.</summary>
    public static Mass operator +(Mass left, Mass right) => new(checked(left.Micrograms + right.Micrograms));

    /// <summary>The difference of two masses; it may be negative.</summary>
    public static Mass operator -(Mass left, Mass right) => new(checked(left.Micrograms - right.Micrograms));

    /// <summary>Whether the left mass is smaller.</summary>
    public static bool operator <(Mass left, Mass right) => left.Micrograms < right.Micrograms;

    /// <summary>Whether the left mass is greater.</summary>
    public static bool operator >(Mass left, Mass right) => left.Micrograms > right.Micrograms;

    /// <summary>Whether the left mass is smaller or the same.</summary>
    public static bool operator <=(Mass left, Mass right) => left.Micrograms <= right.Micrograms;

    /// <summary>Whether the left mass is greater or the same.</summary>
    public static bool operator >=(Mass left, Mass right) => left.Micrograms >= right.Micrograms;

    /// <inheritdoc />
    public int CompareTo(Mass other) => Micrograms.CompareTo(other.Micrograms);

    /// <summary>The mass in grams with its unit, culture invariant, for logs and messages: <c>12.3450 g</c>.</summary>
    public override string ToString() => string.Create(CultureInfo.InvariantCulture, $"{Grams:0.0000##} g");
}
