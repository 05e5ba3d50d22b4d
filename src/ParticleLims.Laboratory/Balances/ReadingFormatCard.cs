using ParticleLims.Laboratory.Record;

namespace ParticleLims.Laboratory.Balances;

/// <summary>A reading format as people write it.</summary>
public sealed record ReadingFormatCard
{
    public required string Name { get; init; }
    public required string Pattern { get; init; }
    public string StableMarks { get; init; } = string.Empty;
    public string UnstableMarks { get; init; } = string.Empty;
    public string OverloadMarks { get; init; } = string.Empty;
    public string UnderloadMarks { get; init; } = string.Empty;
    public LineWithoutMark WithoutMark { get; init; }
    public bool EachLineIsPrint { get; init; }
    public string Units { get; init; } = "g mg kg";
    public bool DecimalComma { get; init; }
    public bool Checked { get; init; }
    public LineEnd LineEnd { get; init; }
    public int MostCharacters { get; init; } = 80;
    public bool FirstLineMayBeCut { get; init; } = true;
    public string? Command { get; init; }
    public LineEnd CommandEnd { get; init; }
    public int? AskEveryMilliseconds { get; init; }
    public int? LostAfterMilliseconds { get; init; } = 5_000;

    /// <summary>Refuses, in words, a format by which nothing could be read.</summary>
    /// <exception cref="RefusedException">Says everything that is wrong.</exception>
    internal void Check(IReadingFormatCheck check)
    {
        if (string.IsNullOrWhiteSpace(Name) || Name.Trim().Length > 60)
        {
            throw new RefusedException("format-incomplete", "A reading format has a name of at most 60 characters.", "name");
        }

        if (check.ProblemsOf(this) is { Count: > 0 } problems)
        {
            throw new RefusedException("format-unusable", string.Join(' ', problems), "pattern");
        }
    }
}

/// <summary>Judges whether lines can be read by a format. Whoever reads the lines implements it, so that what is saved is what will work.</summary>
public interface IReadingFormatCheck
{
    /// <summary>What is wrong with a format, in words; empty when it can be used.</summary>
    IReadOnlyList<string> ProblemsOf(ReadingFormatCard card);
}
