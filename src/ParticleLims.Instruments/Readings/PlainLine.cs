using System.Globalization;
using ParticleLims.Analysis.Quantities;

namespace ParticleLims.Instruments.Readings;

/// <summary>
/// Our own plain format, spoken by the simulated balance and offered to whoever can program an instrument's output:
/// <c>S +   312.3450 g 0417</c>, that is the mark (S stable, U unstable, O overload, L underload), the sign, the value
/// right-aligned in eleven characters, the unit, the serial number; with a checksum <c> *A1B2</c> follows.
/// </summary>
public static class PlainLine
{
    private const int ValueWidth = 11;
    private const string Body = "(?<stable>[A-Z]) (?<sign>[+-])(?<value>[ -~]{11}) (?<unit>[A-Za-z%]{1,4}) (?<serial>[0-9A-Za-z-]{1,16})";

    /// <summary>The plain line without a checksum.</summary>
    public static ReadingFormat Format { get; } = new()
    {
        Name = "Plain line",
        Pattern = Body,
        StableMarks = "S",
        UnstableMarks = "U",
        OverloadMarks = "O",
        UnderloadMarks = "L",
        SilenceLimit = TimeSpan.FromSeconds(5),
    };

    /// <summary>The plain line with a checksum: a damaged line is refused.</summary>
    public static ReadingFormat FormatWithChecksum { get; } = Format with
    {
        Name = "Plain line with checksum",
        Pattern = Body + @" \*(?<check>[0-9A-F]{4})",
        Checksum = LineChecksum.Crc16,
        FirstLineMayBeCut = false,
    };

    /// <summary>Writes a reading in grams, without terminator.</summary>
    /// <param name="mass">The mass; it must fit eleven characters.</param>
    /// <param name="decimals">Decimals of a gram, 0 to 6; the mass must have no finer digit.</param>
    /// <param name="stable">Whether the reading is stable.</param>
    /// <param name="serial">The serial number: 1 to 16 letters, digits or hyphens.</param>
    /// <param name="checksum">Whether check characters follow.</param>
    /// <exception cref="ArgumentException">The mass does not fit, or has finer digits than are to be shown.</exception>
    public static string Write(Mass mass, int decimals, bool stable, string serial, bool checksum)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(decimals);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(decimals, 6);
        var grams = decimal.Abs(mass.Grams);
        var value = grams.ToString("F" + decimals.ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture);
        if (value.Length > ValueWidth || decimal.Round(grams, decimals) != grams)
        {
            throw new ArgumentException($"The mass {mass} cannot be shown with {decimals} decimals in {ValueWidth} characters.", nameof(mass));
        }

        return Finish($"{(stable ? 'S' : 'U')} {(mass < Mass.Zero ? '-' : '+')}{value.PadLeft(ValueWidth)} g {serial}", checksum);
    }

    /// <summary>Writes the line of an overloaded balance, without terminator.</summary>
    public static string WriteOverload(string serial, bool checksum) =>
        Finish($"O +{new string('-', ValueWidth)} g {serial}", checksum);

    private static string Finish(string body, bool checksum) =>
        checksum ? $"{body} *{Crc16.HexOf(body + " *")}" : body;
}
