using System.Globalization;
using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Certificates.Texts;
using ParticleLims.Laboratory.Customers;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Laboratory.Deliveries;

/// <summary>The text of a customer's mails in one language, as it is sent.</summary>
/// <param name="Language">By ISO 639-1.</param>
/// <param name="Subject">The subject with its places.</param>
/// <param name="Text">The text with its places.</param>
/// <param name="Own">Whether the customer has one of its own.</param>
/// <param name="Version">The version of the customer's own text; 0 where it never had one.</param>
public sealed record SentText(string Language, string Subject, string Text, bool Own, long Version)
{
    /// <summary>The usual text of a language.</summary>
    internal static SentText Usual(string language)
    {
        var texts = CertificateTexts.In(language);
        return new SentText(language, texts["mail.issued.subject"], texts["mail.issued.text"], false, 0);
    }
}

/// <summary>Keeps the texts of the mails that bring certificates.</summary>
public sealed class MailTextKeeping(WritePath writing, ReadPath reading)
{
    private static readonly DeedKind ChangeDeed = new("deliveries.mail-text", "Text of a customer's mails changed", Permission.KeepProducts, ReasonRequired: true);

    /// <summary>Gives a customer a text of its own in a language, or takes it away again.</summary>
    /// <param name="actor">Who changes it.</param>
    /// <param name="customerId">The customer.</param>
    /// <param name="language">The language by ISO 639-1.</param>
    /// <param name="own">Subject and text; null for the usual ones.</param>
    /// <param name="reason">Why.</param>
    /// <param name="version">The version that was read.</param>
    /// <param name="cancellation">Ends it.</param>
    public Task<bool> ChangeAsync(Actor actor, Guid customerId, string language, (string Subject, string Text)? own, string reason, long version, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(ChangeDeed, actor, Reason: reason), async (scope, token) =>
        {
            var customer = await scope.FindAsync<Customer>(customerId, "customer", token);
            CertificateWishes.RequireLanguage(language);
            var text = await scope.Data.MailTexts.FirstOrDefaultAsync(one => one.CustomerId == customerId && one.Language == language, token);
            if ((text?.Version ?? 0) != version)
            {
                throw new StaleVersionException($"The text of the mails to {customer.Name}");
            }

            if (text is null)
            {
                text = new MailText { Id = scope.NewId(), CustomerId = customerId, Language = language };
                scope.Data.Add(text);
            }

            (text.Subject, text.Text) = own is { } given ? Checked(given) : (null, null);
            scope.About(nameof(Customer), customer.Id, customer.Name);
            return true;
        }, cancellation);

    /// <summary>The texts that a customer's mails have, one of each language.</summary>
    public Task<List<SentText>> OfAsync(Actor actor, Guid customerId, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.SeeLaboratory, async (data, _, token) =>
        {
            var own = await data.MailTexts.Where(text => text.CustomerId == customerId).ToListAsync(token);
            return CertificateTexts.Languages.Select(language => Of(language, own.Find(text => text.Language == language))).ToList();
        }, cancellation);

    /// <summary>What is sent: the customer's own text where it has one.</summary>
    internal static SentText Of(string language, MailText? own) =>
        own is { Subject: { } subject, Text: { } text } ? new SentText(language, subject, text, true, own.Version) : SentText.Usual(language) with { Version = own?.Version ?? 0 };

    private static (string Subject, string Text) Checked((string Subject, string Text) given)
    {
        var (subject, text) = (given.Subject.Trim(), given.Text.Trim().ReplaceLineEndings("\n"));
        if (subject.Length is < 5 or > MailText.LongestSubject || text.Length is < 5 or > MailText.LongestText)
        {
            throw new RefusedException("mail-text", string.Create(CultureInfo.InvariantCulture, $"A mail has a subject (5 to {MailText.LongestSubject} letters) and a text (5 to {MailText.LongestText} letters)."), subject.Length is < 5 or > MailText.LongestSubject ? "subject" : "text");
        }

        MailPlaces.Check(subject, "subject", needsHow: false);
        MailPlaces.Check(text, "text", needsHow: true);
        return (subject, text);
    }
}
