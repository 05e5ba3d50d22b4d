using ParticleLims.Instruments.Readings;
using ParticleLims.Laboratory.Balances;
using ParticleLims.Web.Controls;
using BalanceReading = ParticleLims.Instruments.Readings.BalanceReading;

namespace ParticleLims.Web.Readings;

/// <summary>What a pasted line would be read as.</summary>
/// <param name="Line">The line.</param>
/// <param name="Kind">good for a stable reading, wait for an unstable one, bad for a refusal.</param>
/// <param name="State">stable, unstable or refused.</param>
/// <param name="Words">The mass, or why there is none.</param>
public sealed record TriedLine(string Line, string Kind, string State, string Words);

/// <summary>Tries a format on pasted lines, by the parser that reads the balance's own.</summary>
public static class LineTrial
{
    /// <summary>At most so many lines are tried at once.</summary>
    public const int Most = 200;

    /// <summary>The verdict on each line; none while the format cannot be used.</summary>
    /// <param name="card">The format as it stands in the form.</param>
    /// <param name="pasted">The lines.</param>
    /// <param name="serial">The serial number that the lines must carry; empty for any.</param>
    public static IReadOnlyList<TriedLine> Of(ReadingFormatCard card, string pasted, string serial)
    {
        ArgumentNullException.ThrowIfNull(pasted);
        ArgumentNullException.ThrowIfNull(serial);
        var format = KnownFormats.Of(card);
        if (pasted.Length == 0 || format.Problems().Count > 0)
        {
            return [];
        }

        var expected = serial.Trim() is { Length: > 0 } some ? some : null;
        return [.. Lines(pasted).Select(line => Judge(format.Parse(line, DateTimeOffset.UnixEpoch, expected)))];
    }

    // What is pasted has the line ends of the browser, not those of the balance; the last one ends the last line.
    private static IEnumerable<string> Lines(string pasted)
    {
        var lines = pasted.ReplaceLineEndings("\n").Split('\n');
        return (lines[^1].Length == 0 ? lines[..^1] : lines).Take(Most);
    }

    private static TriedLine Judge(BalanceLine line) => line switch
    {
        BalanceReading { Stable: true } reading => new(line.RawLine, "good", "stable", Words(reading)),
        BalanceReading reading => new(line.RawLine, "wait", "unstable", Words(reading)),
        RejectedLine refused => new(line.RawLine, "bad", "refused", refused.Reason),
        _ => throw new InvalidOperationException("A line is read or refused."),
    };

    private static string Words(BalanceReading reading) =>
        Say.Grams(reading.Mass, reading.Decimals) + (reading.DeviceSerial is { } serial ? $", from {serial}" : string.Empty);
}
