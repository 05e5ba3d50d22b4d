using System.Globalization;

namespace ParticleLims.Analysis.Quantities;

/// <summary>A temperature of a room or of an oven, in whole millikelvins.</summary>
public readonly record struct Temperature : IComparable<Temperature>
{
    private const long IcePoint = 273_150;

    private Temperature(long millikelvins) => Millikelvins = millikelvins;

    /// <summary>The temperature in millikelvins (mK).</summary>
    public long Millikelvins { get; }

    /// <summary>The temperature in degrees Celsius (°C), exactly.</summary>
    public decimal Celsius => (Millikelvins - IcePoint) / 1_000m;

    /// <summary>A temperature of so many millikelvins (mK), from 0 to 2 000 000 mK.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Outside that range.</exception>
    public static Temperature FromMillikelvins(long millikelvins) => millikelvins is >= 0 and <= 2_000_000
        ? new Temperature(millikelvins)
        : throw new ArgumentOutOfRangeException(nameof(millikelvins), millikelvins, "A temperature lies between 0 mK and 2 000 000 mK.");

    /// <summary>A temperature of so many degrees Celsius (°C), to the thousandth of a degree; from -273.15 to 1726.85 °C.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Outside that range.</exception>
    public static Temperature FromCelsius(decimal celsius) => celsius is >= -273.15m and <= 1_726.85m
        ? FromMillikelvins((long)decimal.Round(celsius * 1_000m, MidpointRounding.ToEven) + IcePoint)
        : throw new ArgumentOutOfRangeException(nameof(celsius), celsius, "A temperature lies between -273.15 °C and 1726.85 °C.");

    /// <inheritdoc />
    public int CompareTo(Temperature other) => Millikelvins.CompareTo(other.Millikelvins);

    /// <summary>Whether the left one is colder.</summary>
    public static bool operator <(Temperature left, Temperature right) => left.CompareTo(right) < 0;

    /// <summary>Whether the left one is warmer.</summary>
    public static bool operator >(Temperature left, Temperature right) => left.CompareTo(right) > 0;

    /// <summary>Whether the left one is not warmer.</summary>
    public static bool operator <=(Temperature left, Temperature right) => left.CompareTo(right) <= 0;

    /// <summary>Whether the left one is not colder.</summary>
    public static bool operator >=(Temperature left, Temperature right) => left.CompareTo(right) >= 0;

    /// <summary>The temperature in degrees Celsius with its unit, culture invariant: <c>21.5 °C</c>.</summary>
    public override string ToString() => string.Create(CultureInfo.InvariantCulture, $"{Celsius:0.###} °C");
}
