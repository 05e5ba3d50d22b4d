using System.Globalization;
using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Certificates;
using ParticleLims.Laboratory.Customers;
using ParticleLims.Laboratory.Outgoing;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Settings;

namespace ParticleLims.Laboratory.Deliveries;

/// <summary>Queues mails about a certificate within the running deed. Where none can be queued, that is written too: nobody has to guess who was told.</summary>
internal static class DeliveryQueue
{
    /// <summary>Queues one mail to each contact; answers the deliveries.</summary>
    /// <param name="scope">The running deed.</param>
    /// <param name="certificate">The certificate.</param>
    /// <param name="to">Each contact with what it is told.</param>
    /// <param name="cancellation">Ends the deed before it is written.</param>
    public static async Task<IReadOnlyList<CertificateDelivery>> DeliverAsync(this DeedScope scope, Certificate certificate, IReadOnlyCollection<(CustomerContact Contact, DeliveryKind Kind)> to, CancellationToken cancellation)
    {
        if (to.Count == 0 || certificate.CustomerId is not { } customerId)
        {
            return [];
        }

        var customer = await scope.Data.Customers.AsNoTracking().SingleAsync(one => one.Id == customerId, cancellation);
        var own = await scope.Data.MailTexts.AsNoTracking().Where(text => text.CustomerId == customerId).ToListAsync(cancellation);
        var letter = new CertificateLetter(certificate, customer, await SettingsKeeping.OfAsync(scope.Data, cancellation));
        var deliveries = new List<CertificateDelivery>();
        foreach (var (contact, kind) in to)
        {
            var language = letter.LanguageOf(contact);
            var message = contact.BouncedAt is null ? await scope.MailToAsync(letter.To(kind, contact, own.Find(text => text.Language == language), certificate.StateReason), contact.Address, cancellation) : null;
            deliveries.Add(new CertificateDelivery
            {
                Id = scope.NewId(), CertificateId = certificate.Id, CertificateNumber = certificate.Number, CustomerId = customerId, ContactId = contact.Id, ContactName = contact.Name, Address = contact.Address,
                Language = language, Kind = kind, QueuedAt = scope.Now, QueuedByName = scope.By.Name, MessageId = message, NotQueued = message is null ? Why(contact) : null,
            });
        }

        scope.Data.AddRange(deliveries);
        return deliveries;
    }

    /// <summary>The contacts that have a certificate: it was mailed to them, or they got it in another way.</summary>
    public static async Task<List<CustomerContact>> ReceiversAsync(this DeedScope scope, Guid certificateId, CancellationToken cancellation)
    {
        var ids = await scope.Data.CertificateDeliveries.Where(one => one.CertificateId == certificateId && (one.MessageId != null || one.SettledAt != null) && (one.Kind == DeliveryKind.Issued || one.Kind == DeliveryKind.Revised)).Select(one => one.ContactId).Distinct().ToListAsync(cancellation);
        return await scope.Data.CustomerContacts.AsNoTracking().Where(contact => ids.Contains(contact.Id)).OrderBy(contact => contact.Name).ToListAsync(cancellation);
    }

    private static string Why(CustomerContact contact) => contact.BouncedAt is { } at
        ? string.Create(CultureInfo.InvariantCulture, $"A mail to this address came back on {at.UtcDateTime:yyyy-MM-dd}.")
        : "No mail server is set.";
}
