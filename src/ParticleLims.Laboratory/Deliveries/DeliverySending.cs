using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Certificates;
using ParticleLims.Laboratory.Customers;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Laboratory.Deliveries;

/// <summary>Sends a certificate by hand, and says who was told in another way.</summary>
public sealed class DeliverySending(WritePath writing)
{
    private static readonly DeedKind SendDeed = new("deliveries.send", "Certificate sent by hand", Permission.IssueCertificates);
    private static readonly DeedKind SettleDeed = new("deliveries.settle", "Contact told in another way", Permission.IssueCertificates, ReasonRequired: true);

    /// <summary>Queues the certificate for some of its customer's contacts, whether they have it already or not; answers how many mails were queued.</summary>
    /// <param name="actor">Who sends it.</param>
    /// <param name="certificateId">The certificate, in force.</param>
    /// <param name="contactIds">The contacts.</param>
    /// <param name="key">An idempotency key.</param>
    /// <param name="cancellation">Ends the deed before it is written.</param>
    /// <exception cref="RefusedException">It is not in force, nobody was chosen, or one of the mails cannot be queued.</exception>
    public Task<int> SendAsync(Actor actor, Guid certificateId, IReadOnlyCollection<Guid> contactIds, string? key, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(SendDeed, actor, key) { Asked = new { certificateId, contactIds } }, async (scope, token) =>
        {
            var certificate = await scope.FindAsync<Certificate>(certificateId, "certificate", token);
            scope.About(nameof(Certificate), certificate.Id, certificate.Number);
            if (certificate.State != CertificateState.Issued)
            {
                throw new RefusedException("certificate-state", $"Certificate {certificate.Number} is {certificate.State.Words()}; only one in force is sent.");
            }

            var contacts = await scope.Data.CustomerContacts.AsNoTracking().Where(contact => contactIds.Contains(contact.Id) && contact.CustomerId == certificate.CustomerId).OrderBy(contact => contact.Name).ToListAsync(token);
            if (contacts.Count == 0 || contacts.Count != contactIds.Distinct().Count())
            {
                throw new RefusedException("contacts-missing", $"Choose at least one contact of {certificate.CustomerName}, and nobody else's.", "contacts");
            }

            var queued = await scope.DeliverAsync(certificate, contacts.ConvertAll(contact => (contact, DeliveryKind.Issued)), token);
            return queued.FirstOrDefault(one => one.NotQueued is not null) is { } stuck ? throw new RefusedException("not-queued", $"{stuck.Address}: {stuck.NotQueued}", "contacts") : queued.Count;
        }, cancellation);

    /// <summary>Says that a contact which no mail reached was told in another way, and how; it is not asked for any more.</summary>
    public Task<bool> SettleAsync(Actor actor, Guid deliveryId, string how, long version, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(SettleDeed, actor, Reason: how), async (scope, token) =>
        {
            var delivery = await scope.FindAsync<CertificateDelivery>(deliveryId, "delivery", token);
            DeedScope.RequireVersion(delivery, version, delivery.CertificateNumber);
            scope.About(nameof(CertificateDelivery), delivery.Id, $"{delivery.CertificateNumber} to {delivery.ContactName}");
            if (delivery.SettledAt is not null)
            {
                throw new RefusedException("delivery-settled", $"{delivery.SettledByName} has said already how {delivery.ContactName} was told.");
            }

            delivery.Settle(scope.Now, scope.By.Name, how.Trim());
            return true;
        }, cancellation);
}
