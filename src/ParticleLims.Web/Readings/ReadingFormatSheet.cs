using ParticleLims.Laboratory.Balances;

namespace ParticleLims.Web.Readings;

/// <summary>A reading format while it is being typed.</summary>
public sealed class ReadingFormatSheet
{
    /// <summary>An empty sheet, or one with what is kept.</summary>
    public ReadingFormatSheet(ReadingFormat? kept)
    {
        if (kept is null)
        {
            return;
        }

        (Name, Pattern, Units) = (kept.Name, kept.Pattern, kept.Units);
        (StableMarks, UnstableMarks, OverloadMarks, UnderloadMarks) = (kept.StableMarks, kept.UnstableMarks, kept.OverloadMarks, kept.UnderloadMarks);
        EachLine = kept.EachLineIsPrint ? 1 : 0;
        (WithoutMark, LineEnd, CommandEnd) = ((int)kept.WithoutMark, (int)kept.LineEnd, (int)kept.CommandEnd);
        (DecimalMark, Checked, FirstLine) = (kept.DecimalComma ? 1 : 0, kept.Checked ? 1 : 0, kept.FirstLineMayBeCut ? 0 : 1);
        (MostCharacters, Command, AskEvery, LostAfter) = (kept.MostCharacters, kept.Command ?? string.Empty, Seconds(kept.AskEveryMilliseconds), Seconds(kept.LostAfterMilliseconds));
    }

    public string Name { get; set; } = string.Empty;
    public string Pattern { get; set; } = "(?<sign>[+-]?)(?<value>[0-9., ]+) (?<unit>[a-z]+) (?<stable>[A-Z])";
    public string Units { get; set; } = "g mg kg";
    public string StableMarks { get; set; } = "S";
    public string UnstableMarks { get; set; } = "U";
    public string OverloadMarks { get; set; } = "O";
    public string UnderloadMarks { get; set; } = "L";

    /// <summary>The places of the choices in their lists.</summary>
    public int WithoutMark { get; set; }
    public int EachLine { get; set; }
    public int LineEnd { get; set; }
    public int CommandEnd { get; set; }
    public int DecimalMark { get; set; }
    public int Checked { get; set; }
    public int FirstLine { get; set; }
    public decimal? MostCharacters { get; set; } = 80;
    public string Command { get; set; } = string.Empty;

    /// <summary>In seconds; nothing for never.</summary>
    public decimal? AskEvery { get; set; }
    public decimal? LostAfter { get; set; } = 5;

    /// <summary>The format as it stands.</summary>
    public ReadingFormatCard Card() => new()
    {
        Name = Name.Trim(),
        Pattern = Pattern.ReplaceLineEndings(string.Empty),
        StableMarks = StableMarks.Trim(),
        UnstableMarks = UnstableMarks.Trim(),
        OverloadMarks = OverloadMarks.Trim(),
        UnderloadMarks = UnderloadMarks.Trim(),
        WithoutMark = (LineWithoutMark)WithoutMark,
        EachLineIsPrint = EachLine == 1,
        Units = Units.Trim(),
        DecimalComma = DecimalMark == 1,
        Checked = Checked == 1,
        LineEnd = (LineEnd)LineEnd,
        MostCharacters = (int)(MostCharacters ?? 0),
        FirstLineMayBeCut = FirstLine == 0,
        Command = Command.Length == 0 ? null : Command,
        CommandEnd = (LineEnd)CommandEnd,
        AskEveryMilliseconds = Milliseconds(AskEvery),
        LostAfterMilliseconds = Milliseconds(LostAfter),
    };

    private static decimal? Seconds(int? milliseconds) => milliseconds is { } some ? some / 1000m : null;

    private static int? Milliseconds(decimal? seconds) => seconds is { } some ? (int)(some * 1000m) : null;
}
