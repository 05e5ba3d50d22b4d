namespace ParticleLims.Laboratory.Balances;

/// <summary>The formats that every laboratory starts with: our own plain line, for whoever can program what an instrument sends. The migration writes them.</summary>
public static class FirstReadingFormats
{
    private const string Body = "(?<stable>[A-Z]) (?<sign>[+-])(?<value>[ -~]{11}) (?<unit>[A-Za-z%]{1,4}) (?<serial>[0-9A-Za-z-]{1,16})";

    /// <summary>The plain line without and with check characters.</summary>
    public static IReadOnlyList<ReadingFormat> All =>
    [
        Plain("01980000-0000-7000-8000-000000000001", "Plain line", Body, withCheck: false),
        Plain("01980000-0000-7000-8000-000000000002", "Plain line with checksum", Body + @" \*(?<check>[0-9A-F]{4})", withCheck: true),
    ];

    private static ReadingFormat Plain(string id, string name, string pattern, bool withCheck) => new()
    {
        Id = Guid.Parse(id), Name = name, Pattern = pattern, StableMarks = "S", UnstableMarks = "U", OverloadMarks = "O", UnderloadMarks = "L", Units = "g mg kg", Checked = withCheck,
        MostCharacters = 80, FirstLineMayBeCut = !withCheck, LostAfterMilliseconds = 5_000, Version = 1,
    };
}
