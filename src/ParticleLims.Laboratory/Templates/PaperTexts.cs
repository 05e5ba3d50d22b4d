namespace ParticleLims.Laboratory.Templates;

/// <summary>The texts of a template in one language. What is empty here and written in English is printed in English.</summary>
/// <param name="Language">By ISO 639-1.</param>
public sealed record PaperTexts(string Language)
{
    /// <summary>The languages in which texts can be written, by ISO 639-1; the first one stands in for the others.</summary>
    public static IReadOnlyList<string> Languages { get; } = ["en", "de", "fr", "es"];

    /// <summary>The most letters of one text.</summary>
    public const int Longest = 600;

    /// <summary>The most letters of the pointer to the safety data sheet, so that no sheet is copied.</summary>
    public const int LongestSafety = 200;

    /// <summary>How it is stored and handled; empty for nothing.</summary>
    public string Storage { get; init; } = string.Empty;

    /// <summary>Where the hazards stand: a pointer to the safety data sheet; empty for nothing.</summary>
    public string Safety { get; init; } = string.Empty;

    /// <summary>The accreditation: by whom, under which number, for what; empty where there is none.</summary>
    public string Accreditation { get; init; } = string.Empty;

    /// <summary>Anything else; empty for nothing.</summary>
    public string Note { get; init; } = string.Empty;

    /// <summary>Without spaces at the ends.</summary>
    public PaperTexts Trimmed() => this with { Storage = Storage.Trim(), Safety = Safety.Trim(), Accreditation = Accreditation.Trim(), Note = Note.Trim() };
}
