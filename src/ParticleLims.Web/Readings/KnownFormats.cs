using ParticleLims.Instruments.Readings;
using ParticleLims.Laboratory.Balances;
using KeptFormat = ParticleLims.Laboratory.Balances.ReadingFormat;
using ReadingFormat = ParticleLims.Instruments.Readings.ReadingFormat;

namespace ParticleLims.Web.Readings;

/// <summary>The laboratory's reading formats as they were last looked up, ready to read lines by. Thread-safe.</summary>
public sealed class KnownFormats(ReadingFormatKeeping keeping)
{
    private volatile IReadOnlyDictionary<string, ReadingFormat> known = new Dictionary<string, ReadingFormat>(StringComparer.Ordinal);

    /// <summary>Looks them up again.</summary>
    public async Task RefreshAsync(CancellationToken cancellation) =>
        known = (await keeping.ForReadingAsync(cancellation)).ToDictionary(format => format.Name, format => Of(format.Card()), StringComparer.Ordinal);

    /// <summary>A format by its name; null when there is none of that name.</summary>
    public ReadingFormat? Find(string name) => known.GetValueOrDefault(name);

    /// <summary>Whether a kept format is one by which lines can be read.</summary>
    public static bool Works(KeptFormat format)
    {
        ArgumentNullException.ThrowIfNull(format);
        return Of(format.Card()).Problems().Count == 0;
    }

    /// <summary>A kept format as the parser takes it.</summary>
    public static ReadingFormat Of(ReadingFormatCard card)
    {
        ArgumentNullException.ThrowIfNull(card);
        return new ReadingFormat
        {
            Name = card.Name,
            Pattern = card.Pattern,
            StableMarks = card.StableMarks,
            UnstableMarks = card.UnstableMarks,
            OverloadMarks = card.OverloadMarks,
            UnderloadMarks = card.UnderloadMarks,
            Unmarked = card.WithoutMark switch { LineWithoutMark.Stable => UnmarkedLine.Stable, LineWithoutMark.Unstable => UnmarkedLine.Unstable, _ => UnmarkedLine.Refused },
            EachLineIsPrint = card.EachLineIsPrint,
            Units = card.Units,
            DecimalMark = card.DecimalComma ? DecimalMark.Comma : DecimalMark.Point,
            Checksum = card.Checked ? LineChecksum.Crc16 : LineChecksum.None,
            LineTerminator = Text(card.LineEnd),
            MaxLineLength = card.MostCharacters,
            FirstLineMayBeCut = card.FirstLineMayBeCut,
            RequestCommand = card.Command,
            CommandTerminator = Text(card.CommandEnd),
            RequestEvery = Span(card.AskEveryMilliseconds),
            SilenceLimit = Span(card.LostAfterMilliseconds),
        };
    }

    private static string Text(LineEnd end) => end switch { LineEnd.LineFeed => "\n", LineEnd.CarriageReturn => "\r", _ => "\r\n" };

    private static TimeSpan? Span(int? milliseconds) => milliseconds is { } some ? TimeSpan.FromMilliseconds(some) : null;
}
