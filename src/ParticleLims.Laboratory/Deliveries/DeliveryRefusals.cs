using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Customers;
using ParticleLims.Laboratory.Outgoing;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Deliveries;

/// <summary>A mail about a certificate that was refused for good or came back marks the address of its contact, unless the contact has another one since.</summary>
internal sealed class DeliveryRefusals : IOutgoingRefusals
{
    /// <inheritdoc />
    public async Task RefusedAsync(DeedScope scope, OutgoingMessage message, string words, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(scope);
        ArgumentNullException.ThrowIfNull(message);
        if (await scope.Data.CertificateDeliveries.AsNoTracking().FirstOrDefaultAsync(one => one.MessageId == message.Id, cancellation) is { } delivery)
        {
            var contact = await scope.FindAsync<CustomerContact>(delivery.ContactId, "contact", cancellation);
            if (contact.Address == message.Addressee)
            {
                contact.Bounce(scope.Now, words);
            }
        }
    }
}

/// <summary>Deliveries and their mails belong to their certificate.</summary>
internal sealed class DeliveryBelongings : IBelongings
{
    /// <inheritdoc />
    public async Task<List<Guid>> OfAsync(LaboratoryContext data, IReadOnlyCollection<Guid> things, CancellationToken cancellation)
    {
        var all = await data.CertificateDeliveries.Where(one => things.Contains(one.CertificateId)).Select(one => new { one.Id, one.MessageId }).ToListAsync(cancellation);
        return [.. all.Select(one => one.Id), .. all.Select(one => one.MessageId).OfType<Guid>()];
    }
}
