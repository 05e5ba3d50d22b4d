using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Deliveries;

/// <summary>The text of the mail that brings a certificate, for one customer in one language; without it the usual text of the language is sent.</summary>
public sealed class MailText : IVersioned
{
    /// <summary>The most letters of a subject.</summary>
    public const int LongestSubject = 150;

    /// <summary>The most letters of a text.</summary>
    public const int LongestText = 4_000;

    public Guid Id { get; init; }
    public Guid CustomerId { get; init; }

    /// <summary>By ISO 639-1.</summary>
    public required string Language { get; init; }

    /// <summary>The subject with its places; null for the usual one.</summary>
    public string? Subject { get; set; }

    /// <summary>The text with its places; null for the usual one.</summary>
    public string? Text { get; set; }
    public long Version { get; set; }
}
