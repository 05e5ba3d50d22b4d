using ParticleLims.Laboratory.Certificates.Texts;
using ParticleLims.Laboratory.Customers;
using ParticleLims.Laboratory.Templates;

namespace ParticleLims.Laboratory.Certificates;

/// <summary>What a certificate says about itself, beside what was measured.</summary>
/// <param name="Number">Its number; null on a draft.</param>
/// <param name="VerifyAddress">The address that the QR code carries; null on a draft.</param>
/// <param name="At">When it is issued or drawn.</param>
internal sealed record CertificateFrame(string? Number, string? VerifyAddress, DateTimeOffset At)
{
    /// <summary>1 for the first issue.</summary>
    public int Revision { get; init; } = 1;

    /// <summary>Which certificate it replaces, what changed and why; null for a first issue.</summary>
    public string? Replaces { get; init; }

    /// <summary>How the customer wants it.</summary>
    public CertificateWishes Wishes { get; init; } = CertificateWishes.Usual;

    /// <summary>The template by which it is drawn.</summary>
    public required ChosenTemplate Template { get; init; }

    /// <summary>The texts in the language of the certificate.</summary>
    public CertificateTexts Texts => CertificateTexts.In(Wishes.Language);
}
