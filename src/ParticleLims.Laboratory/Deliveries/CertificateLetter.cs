using ParticleLims.Laboratory.Certificates;
using ParticleLims.Laboratory.Certificates.Texts;
using ParticleLims.Laboratory.Customers;
using ParticleLims.Laboratory.Outgoing;
using ParticleLims.Laboratory.Settings;

namespace ParticleLims.Laboratory.Deliveries;

/// <summary>Writes the mail about a certificate to one contact, in the contact's language.</summary>
/// <param name="certificate">The certificate.</param>
/// <param name="customer">Its customer.</param>
/// <param name="settings">The laboratory's settings.</param>
internal sealed class CertificateLetter(Certificate certificate, Customer customer, LaboratorySettings settings)
{
    private readonly CertificateContent content = CertificateIssue.ReadContent(certificate);

    /// <summary>The language in which a contact is written to.</summary>
    public string LanguageOf(CustomerContact contact) => contact.Language ?? customer.Certificates.Language;

    /// <summary>The mail.</summary>
    /// <param name="kind">What it says.</param>
    /// <param name="contact">To whom.</param>
    /// <param name="own">The customer's own text in that language; null for none.</param>
    /// <param name="reason">Why, for a certificate that is suspended or withdrawn.</param>
    public News To(DeliveryKind kind, CustomerContact contact, MailText? own, string? reason)
    {
        var texts = CertificateTexts.In(LanguageOf(contact));
        var sent = kind == DeliveryKind.Issued ? MailTextKeeping.Of(texts.Language, own) : null;
        var key = "mail." + MeasurementsFreezing.Name(kind);
        var values = Values(contact, texts, reason, kind);
        return new News(
            "certificate-mail", (nameof(Certificate), certificate.Id), MailPlaces.Fill(sent?.Subject ?? texts[key + ".subject"], values), MailPlaces.Fill(sent?.Text ?? texts[key + ".text"], values), Files(kind, contact));
    }

    private static bool Brings(DeliveryKind kind, CustomerContact contact) => kind == DeliveryKind.Issued || (kind == DeliveryKind.Revised && contact.ReceivesCertificates);

    private List<NewsFile> Files(DeliveryKind kind, CustomerContact contact)
    {
        List<NewsFile> files = [];
        if (Brings(kind, contact) && !customer.Certificates.LinkOnly)
        {
            files.Add(new NewsFile($"{certificate.Number}.pdf", "application/pdf", CertificatePdfs.Kind, certificate.Id));
        }

        if (Brings(kind, contact) && customer.Certificates.TwinByMail)
        {
            files.Add(new NewsFile($"{certificate.Number}.json", "application/json", CertificateTwins.Kind, certificate.Id));
        }

        return files;
    }

    private Dictionary<string, string> Values(CustomerContact contact, CertificateTexts texts, string? reason, DeliveryKind kind) => new(StringComparer.Ordinal)
    {
        ["contact"] = contact.Name, ["customer"] = customer.Name, ["certificate"] = certificate.Number, ["revision"] = texts.Number(certificate.Revision, "0"),
        ["product"] = $"{content.Product.Code} {content.Product.Name}", ["lot"] = certificate.LotNumber, ["reference"] = content.Product.CustomerReference ?? "–",
        ["verify"] = $"{settings.PublicAddress}/verify/{certificate.VerifyToken}", ["laboratory"] = string.Join('\n', new[] { settings.Name, settings.Contact }.Where(line => line.Length > 0)),
        [MailPlaces.How] = How(texts, kind, contact), ["replaces"] = content.Replaces ?? "–", ["reason"] = reason ?? "–",
    };

    private string How(CertificateTexts texts, DeliveryKind kind, CustomerContact contact)
    {
        var pdf = Brings(kind, contact) && !customer.Certificates.LinkOnly ? texts["mail.how.attached"] : texts.With("mail.how.link", $"{settings.PublicAddress}/certificates");
        return Brings(kind, contact) && customer.Certificates.TwinByMail ? $"{pdf} {texts["mail.how.twin"]}" : pdf;
    }
}
