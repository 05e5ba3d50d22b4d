namespace ParticleLims.Laboratory.Record;

/// <summary>What somebody left empty is nothing, however many blanks stand there.</summary>
internal static class BlankText
{
    /// <summary>The text without blanks at its ends; null where there is nothing else.</summary>
    public static string? OrNothing(this string? text) => text?.Trim() is { Length: > 0 } something ? something : null;
}
