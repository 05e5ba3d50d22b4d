using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.ChangeTracking;
using ParticleLims.Laboratory.Certificates;
using ParticleLims.Laboratory.Customers;
using ParticleLims.Laboratory.Outgoing;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Settings;

namespace ParticleLims.Laboratory.Deliveries;

/// <summary>Whenever a certificate is issued, revised, suspended, reinstated or withdrawn, whichever deed it was: mails those who get it or got it, and posts the news.</summary>
internal sealed class CertificateNews : IFollowsDeeds
{
    /// <inheritdoc />
    public async Task FollowAsync(DeedScope scope, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(scope);
        var changed = scope.Data.ChangeTracker.Entries<Certificate>().Select(entry => (entry.Entity, Kind: KindOf(entry))).Where(one => one.Kind is not null).ToList();
        foreach (var (certificate, kind) in changed)
        {
            await scope.DeliverAsync(certificate, await AddresseesAsync(scope, certificate, kind!.Value, cancellation), cancellation);
            await PostAsync(scope, certificate, kind.Value, cancellation);
        }
    }

    private static DeliveryKind? KindOf(EntityEntry<Certificate> entry) => entry.State switch
    {
        EntityState.Added => entry.Entity.ReplacesId is null ? DeliveryKind.Issued : DeliveryKind.Revised,
        EntityState.Modified when entry.Property(one => one.State).IsModified => entry.Entity.State switch
        {
            CertificateState.Suspended => DeliveryKind.Suspended,
            CertificateState.Issued => DeliveryKind.Reinstated,
            CertificateState.Withdrawn => DeliveryKind.Withdrawn,
            _ => null,
        },
        _ => null,
    };

    private static async Task<List<(CustomerContact Contact, DeliveryKind Kind)>> AddresseesAsync(DeedScope scope, Certificate certificate, DeliveryKind kind, CancellationToken cancellation)
    {
        if (kind is not (DeliveryKind.Issued or DeliveryKind.Revised))
        {
            return (await scope.ReceiversAsync(certificate.Id, cancellation)).ConvertAll(contact => (contact, kind));
        }

        // Whoever received the earlier one hears of the new one, also after it asked for no more of them.
        var earlier = certificate.ReplacesId is { } replaced ? await scope.ReceiversAsync(replaced, cancellation) : [];
        var receiving = await scope.Data.CustomerContacts.AsNoTracking().Where(contact => contact.CustomerId == certificate.CustomerId && contact.ReceivesCertificates).OrderBy(contact => contact.Name).ToListAsync(cancellation);
        return [.. earlier.Select(contact => (contact, DeliveryKind.Revised)), .. receiving.Where(contact => earlier.TrueForAll(one => one.Id != contact.Id)).Select(contact => (contact, DeliveryKind.Issued))];
    }

    private static async Task PostAsync(DeedScope scope, Certificate certificate, DeliveryKind kind, CancellationToken cancellation)
    {
        var settings = await SettingsKeeping.OfAsync(scope.Data, cancellation);
        var words = kind switch { DeliveryKind.Reinstated => "reinstated", DeliveryKind.Revised => "issued in the place of another one", _ => MeasurementsFreezing.Name(kind) };
        var replaces = certificate.ReplacesId is { } earlier ? await scope.Data.Certificates.Where(one => one.Id == earlier).Select(one => one.Number).FirstOrDefaultAsync(cancellation) : null;
        await scope.PostChosenAsync(
            new News("certificate-" + MeasurementsFreezing.Name(kind), (nameof(Certificate), certificate.Id), $"Certificate {certificate.Number} {words}", $"Certificate {certificate.Number} of lot {certificate.LotNumber} was {words}.")
            {
                Facts = new
                {
                    certificate.Number, certificate.Revision, State = MeasurementsFreezing.Name(certificate.State), certificate.StateReason, Replaces = replaces, certificate.LotId, certificate.LotNumber, certificate.ProductCode,
                    Customer = certificate.CustomerName, IssuedAt = RecordChain.InstantText(certificate.IssuedAt), FileSha256 = certificate.FileHash, VerifyAddress = $"{settings.PublicAddress}/verify/{certificate.VerifyToken}",
                },
            }, cancellation);
    }
}
