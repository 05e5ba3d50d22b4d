using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Outgoing;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Deliveries;

/// <summary>Where a mail about a certificate is.</summary>
public enum DeliveryState
{
    /// <summary>No mail could be queued.</summary>
    NotQueued,
    /// <summary>It waits for its next try.</summary>
    Queued,
    /// <summary>The mail server took it.</summary>
    Sent,
    /// <summary>It was given up after many tries.</summary>
    Failed,
    /// <summary>It was refused for good, or came back.</summary>
    CameBack,
    /// <summary>No mail arrived, and the contact was told in another way.</summary>
    ToldOtherwise,
}

/// <summary>A delivery with what became of its mail.</summary>
/// <param name="Delivery">The delivery.</param>
/// <param name="State">Where it is.</param>
/// <param name="At">When that came to be so; for one that waits, its next try.</param>
/// <param name="Words">What the other side said last, or why there is no mail; null where nothing was said yet.</param>
public sealed record DeliveryRow(CertificateDelivery Delivery, DeliveryState State, DateTimeOffset? At, string? Words);

/// <summary>Shows who was mailed what about certificates, and what became of it.</summary>
public sealed class DeliveryReading(ReadPath reading)
{
    /// <summary>The deliveries of a certificate, the newest first.</summary>
    public Task<List<DeliveryRow>> OfCertificateAsync(Actor actor, Guid certificateId, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.SeeLaboratory, (data, _, token) => RowsAsync(data, data.CertificateDeliveries.Where(one => one.CertificateId == certificateId), 500, token), cancellation);

    /// <summary>The newest deliveries to a customer.</summary>
    public Task<List<DeliveryRow>> OfCustomerAsync(Actor actor, Guid customerId, int most, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.SeeLaboratory, (data, _, token) => RowsAsync(data, data.CertificateDeliveries.Where(one => one.CustomerId == customerId), most, token), cancellation);

    /// <summary>Those that did not arrive, were not sent again since and of which nobody said that the contact was told in another way; the oldest first.</summary>
    internal static async Task<List<DeliveryRow>> StuckAsync(LaboratoryContext data, int most, CancellationToken cancellation)
    {
        var (all, messages) = (data.CertificateDeliveries, data.OutgoingMessages);
        var open = all.Where(one => one.SettledAt == null && !all.Any(later => later.CertificateId == one.CertificateId && later.ContactId == one.ContactId && later.QueuedAt > one.QueuedAt)
            && (one.MessageId == null || messages.Any(message => message.Id == one.MessageId && (message.State == OutgoingState.GivenUp || message.State == OutgoingState.Refused))));
        return await RowsAsync(data, open.OrderBy(one => one.QueuedAt).Take(most), most, cancellation);
    }

    private static async Task<List<DeliveryRow>> RowsAsync(LaboratoryContext data, IQueryable<CertificateDelivery> which, int most, CancellationToken cancellation)
    {
        var deliveries = await which.OrderByDescending(one => one.QueuedAt).ThenBy(one => one.ContactName).Take(Math.Clamp(most, 1, 500)).ToListAsync(cancellation);
        var ids = deliveries.Select(one => one.MessageId).OfType<Guid>().ToList();
        var messages = await data.OutgoingMessages.Include(message => message.Attempts).Where(message => ids.Contains(message.Id)).ToDictionaryAsync(message => message.Id, cancellation);
        return deliveries.ConvertAll(one => Row(one, one.MessageId is { } id ? messages.GetValueOrDefault(id) : null));
    }

    private static DeliveryRow Row(CertificateDelivery delivery, OutgoingMessage? message)
    {
        var last = message?.Attempts.MaxBy(attempt => attempt.At);
        return delivery.SettledAt is { } settled ? new DeliveryRow(delivery, DeliveryState.ToldOtherwise, settled, $"{delivery.SettledByName}: {delivery.SettledWords}")
            : message?.State switch
            {
                null => new DeliveryRow(delivery, DeliveryState.NotQueued, delivery.QueuedAt, delivery.NotQueued),
                OutgoingState.Waiting => new DeliveryRow(delivery, DeliveryState.Queued, message.NextTryAt, last?.Outcome),
                OutgoingState.Sent => new DeliveryRow(delivery, DeliveryState.Sent, message.SentAt, last?.Outcome),
                OutgoingState.Refused => new DeliveryRow(delivery, DeliveryState.CameBack, last?.At, last?.Outcome),
                _ => new DeliveryRow(delivery, DeliveryState.Failed, last?.At, last?.Outcome),
            };
    }
}
