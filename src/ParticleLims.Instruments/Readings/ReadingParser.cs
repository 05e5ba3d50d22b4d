using System.Globalization;
using System.Text.RegularExpressions;
using ParticleLims.Analysis.Quantities;

namespace ParticleLims.Instruments.Readings;

/// <summary>Turns one line into a reading, or into a refusal in words. It never repairs, rounds or guesses.</summary>
internal sealed class ReadingParser
{
    private const int MostDigitsEachSide = 9;

    private readonly ReadingFormat _format;
    private readonly Regex _pattern;
    private readonly Dictionary<string, MarkMeaning> _marks;
    private readonly Dictionary<string, long> _units;
    private readonly bool _tellsSerial;

    public ReadingParser(ReadingFormat format)
    {
        var problems = format.Problems();
        if (problems.Count > 0)
        {
            throw new InvalidOperationException($"The reading format '{format.Name}' cannot be used. {string.Join(' ', problems)}");
        }

        _format = format;
        _pattern = ReadingFormatRules.Compile(format.Pattern);
        _units = UnitList.Read(format.Units);
        _tellsSerial = format.TellsSerial;
        _marks = MarksOf(format);
    }

    private enum MarkMeaning
    {
        Stable,
        Unstable,
        Overload,
        Underload,
    }

    public BalanceLine Parse(string line, DateTimeOffset at, string? expectedSerial)
    {
        var refusal = Framing(line);
        if (refusal is not null)
        {
            return refusal.At(line, at);
        }

        try
        {
            var match = _pattern.Match(line);
            return match.Success
                ? Read(match, line, at, expectedSerial)
                : new Refusal(RejectionCode.Unreadable, $"The line has not the shape of the format '{_format.Name}'.").At(line, at);
        }
        catch (RegexMatchTimeoutException)
        {
            return new Refusal(RejectionCode.TooSlow, "The line took too long to read.").At(line, at);
        }
    }

    private Refusal? Framing(string line)
    {
        if (line.Length == 0)
        {
            return new(RejectionCode.Empty, "The line is empty.");
        }

        if (line.Length > _format.MaxLineLength)
        {
            return new(RejectionCode.TooLong, Invariant($"The line is longer than {_format.MaxLineLength} characters."));
        }

        return line.All(RawText.IsPrintable)
            ? null
            : new(RejectionCode.NotAscii, "The line holds characters that a balance does not send; check the cable and its settings.");
    }

    private BalanceLine Read(Match match, string line, DateTimeOffset at, string? expectedSerial)
    {
        var serial = Text(match, "serial");
        var (stable, negative, unit, shown) = (false, false, 0L, (Steps: 0L, Step: 0L));
        var refusal = Checksum(match, line) ?? Serial(serial, expectedSerial) ?? Mark(match, out stable)
            ?? Unit(match, out unit) ?? Sign(match, out negative) ?? Number(Text(match, "value") ?? "", unit, out shown);
        if (refusal is not null)
        {
            return refusal.At(line, at);
        }

        // Nine digits before the mark and at most a kilogram for one unit: it stays within a long.
        var micrograms = shown.Steps * shown.Step;
        return new BalanceReading(
            Mass.FromMicrograms(negative ? -micrograms : micrograms), UnitList.DecimalsOf(shown.Step), Mass.FromMicrograms(shown.Step), stable, line, at, serial);
    }

    private Refusal? Checksum(Match match, string line)
    {
        if (_format.Checksum == LineChecksum.None)
        {
            return null;
        }

        var check = match.Groups["check"];
        return check.Success && string.Equals(check.Value, Crc16.HexOf(line.AsSpan(0, check.Index)), StringComparison.Ordinal)
            ? null
            : new(RejectionCode.ChecksumWrong, "The line was damaged on its way: its check characters are wrong or missing.");
    }

    private Refusal? Serial(string? serial, string? expected) =>
        expected is null || !_tellsSerial || string.Equals(serial, expected, StringComparison.Ordinal)
            ? null
            : new(RejectionCode.WrongSerial, $"The line comes from the balance '{serial ?? "without a serial number"}', expected is '{expected}'.");

    private Refusal? Mark(Match match, out bool stable)
    {
        var mark = Text(match, "stable");
        stable = _format.Unmarked == UnmarkedLine.Stable;
        if (mark is null)
        {
            return _format.Unmarked == UnmarkedLine.Refused
                ? new(RejectionCode.UnknownMark, "The line does not say whether the reading is stable.")
                : null;
        }

        if (!_marks.TryGetValue(mark, out var meaning))
        {
            return new(RejectionCode.UnknownMark, $"The mark '{mark}' is not one that the format knows.");
        }

        stable = meaning == MarkMeaning.Stable;
        return meaning switch
        {
            MarkMeaning.Overload => new(RejectionCode.Overload, "The balance is overloaded: take the load off the pan."),
            MarkMeaning.Underload => new(RejectionCode.Underload, "The balance is below its range: put the pan in place."),
            _ => null,
        };
    }

    private Refusal? Unit(Match match, out long micrograms)
    {
        var unit = Text(match, "unit") ?? "";
        return _units.TryGetValue(unit, out micrograms)
            ? null
            : new(RejectionCode.WrongUnit, $"The unit '{unit}' is not one of {string.Join(", ", _units.Keys)}: switch the balance to one that is.");
    }

    private static Refusal? Sign(Match match, out bool negative)
    {
        var sign = Text(match, "sign");
        negative = sign == "-";
        return sign is null or "+" or "-" ? null : new(RejectionCode.NotANumber, $"The sign '{sign}' is neither + nor -.");
    }

    private Refusal? Number(string value, long unit, out (long Steps, long Step) shown)
    {
        // So many steps in the last digit, and the micrograms of one.
        shown = default;
        var mark = _format.DecimalMark == DecimalMark.Point ? '.' : ',';
        var otherMark = mark == '.' ? ',' : '.';
        if (value.Contains(otherMark, StringComparison.Ordinal))
        {
            return new(RejectionCode.DecimalMark, $"The value '{value}' has the decimal mark '{otherMark}', due is '{mark}'.");
        }

        var parts = value.Split(mark);
        if (parts.Length > 2 || !parts.All(IsDigits))
        {
            return new(RejectionCode.NotANumber, $"'{value}' is not a number.");
        }

        var (step, rest) = Math.DivRem(unit, PowerOfTen(parts.Length == 2 ? parts[1].Length : 0));
        shown = (long.Parse(string.Concat(parts), NumberStyles.None, CultureInfo.InvariantCulture), step);
        return rest == 0
            ? null
            : new(RejectionCode.TooFine, $"One step in the last digit of '{value}' is no whole number of micrograms.");
    }

    private static bool IsDigits(string part) => part.Length is >= 1 and <= MostDigitsEachSide && part.All(char.IsAsciiDigit);

    private static string? Text(Match match, string group) =>
        match.Groups[group] is { Success: true } found && found.Value.Trim(' ') is { Length: > 0 } text ? text : null;

    private static long PowerOfTen(int exponent)
    {
        var power = 1L;
        for (var i = 0; i < exponent; i++)
        {
            power *= 10;
        }

        return power;
    }

    private static Dictionary<string, MarkMeaning> MarksOf(ReadingFormat format)
    {
        var marks = new Dictionary<string, MarkMeaning>(StringComparer.Ordinal);
        Add(format.StableMarks, MarkMeaning.Stable);
        Add(format.UnstableMarks, MarkMeaning.Unstable);
        Add(format.OverloadMarks, MarkMeaning.Overload);
        Add(format.UnderloadMarks, MarkMeaning.Underload);
        return marks;

        void Add(string list, MarkMeaning meaning)
        {
            foreach (var mark in ReadingFormatRules.Words(list))
            {
                marks[mark] = meaning;
            }
        }
    }

    private static string Invariant(FormattableString text) => FormattableString.Invariant(text);

    private sealed record Refusal(RejectionCode Code, string Reason)
    {
        public RejectedLine At(string line, DateTimeOffset at) => new(Code, Reason, RawText.Printable(line), at);
    }
}
