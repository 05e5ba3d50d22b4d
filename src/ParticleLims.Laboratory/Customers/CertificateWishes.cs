using ParticleLims.Laboratory.Record;

namespace ParticleLims.Laboratory.Customers;

/// <summary>How a customer wants its certificates. They hold from the next certificate on.</summary>
public sealed record CertificateWishes
{
    /// <summary>English on A4, without the net, the readings of the balance kept back.</summary>
    public static CertificateWishes Usual { get; } = new();

    /// <summary>By ISO 639-1: <c>en</c>, <c>de</c>, <c>fr</c> or <c>es</c>.</summary>
    public string Language { get; init; } = "en";

    /// <summary><c>A4</c> or <c>Letter</c>.</summary>
    public string Paper { get; init; } = "A4";

    /// <summary>Whether the Rosin-Rammler net is drawn too.</summary>
    public bool RosinRammlerNet { get; init; }

    /// <summary>Whether the laboratory allows the readings of the balance in the machine-readable twin.</summary>
    public bool Weighings { get; init; }

    /// <summary>Whether a mail only says where the certificate is; else its PDF goes with the mail.</summary>
    public bool LinkOnly { get; init; }

    /// <summary>Whether the machine-readable twin goes with the mail.</summary>
    public bool TwinByMail { get; init; }

    /// <summary>The template by which its certificates are drawn; null for the laboratory's standard.</summary>
    public Guid? Template { get; init; }

    /// <summary>The languages that can be chosen, by code and in their own words.</summary>
    public static IReadOnlyList<(string Code, string Words)> Languages { get; } = [("en", "English"), ("de", "Deutsch"), ("fr", "Français"), ("es", "Español")];

    /// <summary>The sheets that can be chosen.</summary>
    public static IReadOnlyList<string> Papers { get; } = ["A4", "Letter"];

    /// <summary>Refuses a language in which nothing is written.</summary>
    /// <param name="code">The language by ISO 639-1.</param>
    /// <exception cref="RefusedException">It is another one.</exception>
    public static void RequireLanguage(string code)
    {
        if (!Languages.Any(one => one.Code == code))
        {
            throw new RefusedException("certificate-language", "Certificates are written in English (en), German (de), French (fr) or Spanish (es).", "language");
        }
    }

    /// <summary>Refuses what no certificate can be drawn with.</summary>
    /// <exception cref="RefusedException">An unknown language or sheet.</exception>
    public void Check()
    {
        RequireLanguage(Language);

        if (!Papers.Contains(Paper))
        {
            throw new RefusedException("certificate-paper", "Certificates are drawn on A4 or Letter.", "paper");
        }
    }
}
