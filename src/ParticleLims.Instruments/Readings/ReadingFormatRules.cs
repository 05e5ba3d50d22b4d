using System.Text.RegularExpressions;

namespace ParticleLims.Instruments.Readings;

/// <summary>Decides whether a reading format can be used, and says in words why not.</summary>
internal static class ReadingFormatRules
{
    // Generous against a busy machine; a pattern without backtracking takes microseconds over a line of 512 characters.
    private static readonly TimeSpan MatchTimeout = TimeSpan.FromMilliseconds(250);

    private const RegexOptions Options = RegexOptions.NonBacktracking | RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture;

    public static Regex Compile(string pattern) => new($@"\A(?:{pattern})\z", Options, MatchTimeout);

    public static string[] Words(string list) => list.Split(' ', StringSplitOptions.RemoveEmptyEntries);

    public static IReadOnlyList<string> ProblemsOf(ReadingFormat format) =>
    [
        .. Text(format), .. Pattern(format), .. Marks(format), .. UnitList.Problems(format.Units), .. Times(format),
    ];

    private static IEnumerable<string> Text(ReadingFormat format)
    {
        if (string.IsNullOrWhiteSpace(format.Name))
        {
            yield return "The format needs a name.";
        }

        if (format.LineTerminator.Length is < 1 or > 4 || !format.LineTerminator.All(char.IsAscii))
        {
            yield return "The line terminator has 1 to 4 ASCII characters.";
        }

        if (format.CommandTerminator.Length > 4 || !format.CommandTerminator.All(char.IsAscii))
        {
            yield return "What is sent after the command has at most 4 ASCII characters.";
        }

        if (format.RequestCommand is { } command && !(command.Length is >= 1 and <= 40 && command.All(RawText.IsPrintable)))
        {
            yield return "The command has 1 to 40 printable ASCII characters.";
        }

        if (format.MaxLineLength is < 8 or > 512)
        {
            yield return "The longest line lies between 8 and 512 characters.";
        }
    }

    private static IEnumerable<string> Pattern(ReadingFormat format)
    {
        if (PatternSize.ProblemOf(format.Pattern) is { } large)
        {
            return [large];
        }

        Regex? regex = null;
        string? problem = null;
        try
        {
            regex = Compile(format.Pattern);
        }
        catch (ArgumentException wrong)
        {
            problem = $"The pattern is not a regular expression: {wrong.Message}";
        }
        catch (NotSupportedException)
        {
            problem = "The pattern uses look-around or back references; they are not allowed because they can take very long.";
        }

        return regex is null ? [problem!] : Groups(format, regex.GetGroupNames());
    }

    private static IEnumerable<string> Groups(ReadingFormat format, string[] groups)
    {
        foreach (var needed in (string[])["value", "unit"])
        {
            if (!groups.Contains(needed, StringComparer.Ordinal))
            {
                yield return $"The pattern does not name the group '{needed}'.";
            }
        }

        if (format.Checksum != LineChecksum.None && !groups.Contains("check", StringComparer.Ordinal))
        {
            yield return "The format has a checksum, but the pattern does not name the group 'check'.";
        }

        if (format.Unmarked == UnmarkedLine.Refused && !groups.Contains("stable", StringComparer.Ordinal))
        {
            yield return "The pattern does not name the group 'stable', and the format does not say what a line without a mark means.";
        }
    }

    private static IEnumerable<string> Marks(ReadingFormat format) =>
        new[] { format.StableMarks, format.UnstableMarks, format.OverloadMarks, format.UnderloadMarks }
            .SelectMany(marks => Words(marks).Distinct(StringComparer.Ordinal))
            .GroupBy(mark => mark, StringComparer.Ordinal)
            .Where(group => group.Count() > 1)
            .Select(group => $"The mark '{group.Key}' has two meanings.");

    private static IEnumerable<string> Times(ReadingFormat format)
    {
        if (format.RequestEvery is not null && string.IsNullOrEmpty(format.RequestCommand))
        {
            yield return "The format asks at an interval but has no command to ask with.";
        }

        if (format.EachLineIsPrint && (format.SilenceLimit is not null || format.RequestEvery is not null))
        {
            yield return "A balance that sends at the press of its print key is silent between: it is neither asked at an interval nor lost by silence.";
        }

        if (format.RequestEvery < TimeSpan.FromMilliseconds(10))
        {
            yield return "The request interval is at least 10 ms.";
        }

        if (format.SilenceLimit < TimeSpan.FromMilliseconds(50))
        {
            yield return "The silence limit is at least 50 ms.";
        }
    }
}
