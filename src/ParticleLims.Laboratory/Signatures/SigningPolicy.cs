using System.Globalization;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Laboratory.Signatures;

/// <summary>What somebody declares once before they sign electronically. A laboratory adds its own words; the law of its place comes first.</summary>
public static class SigningPolicyText
{
    /// <summary>Raised whenever a paragraph changes, so that everybody is asked again.</summary>
    public const int Version = 1;

    /// <summary>The paragraphs in their order.</summary>
    public static IReadOnlyList<string> Paragraphs { get; } =
    [
        "My electronic signature in this laboratory's records binds me in the same way as my handwritten signature.",
        "I sign only what I have read, only for myself, and only with the meaning that stands beside my name. Name, function, meaning and time are kept with what I signed, and what I signed cannot be exchanged afterwards.",
        "My password, PIN, badge and second factor are mine alone. Nobody else uses them, an administrator included, and I use nobody else's.",
        "When one of them is lost, or somebody else may know it, I tell the administrator at once.",
        "Local law and the rules of this laboratory come first. They may ask for more than these words do.",
    ];
}

/// <summary>The policy as it is now.</summary>
/// <param name="Number">Its version: that of the text, and that of the laboratory's addition.</param>
/// <param name="Paragraphs">All of its words, the laboratory's addition last.</param>
/// <param name="Addition">The laboratory's own words; null without.</param>
public sealed record SigningPolicy(string Number, IReadOnlyList<string> Paragraphs, string? Addition)
{
    /// <summary>SHA-256 over all of its words, hexadecimal: what was accepted.</summary>
    public string TextHash => RecordChain.HashOf(string.Join('\n', Paragraphs));

    internal static SigningPolicy Of(SigningPolicyAddition? newest) => new(
        string.Create(CultureInfo.InvariantCulture, $"{SigningPolicyText.Version}.{newest?.Number ?? 0}"),
        string.IsNullOrEmpty(newest?.Words) ? SigningPolicyText.Paragraphs : [.. SigningPolicyText.Paragraphs, newest.Words], string.IsNullOrEmpty(newest?.Words) ? null : newest.Words);
}
