using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Deliveries;

/// <summary>What a mail about a certificate says.</summary>
public enum DeliveryKind
{
    /// <summary>Here is a certificate.</summary>
    Issued,
    /// <summary>Here is a certificate, which takes the place of one that was received.</summary>
    Revised,
    /// <summary>It is not to be relied on for the time being.</summary>
    Suspended,
    /// <summary>It counts again.</summary>
    Reinstated,
    /// <summary>It was taken back.</summary>
    Withdrawn,
}

/// <summary>A mail about a certificate to one contact of its customer, queued in the deed that it tells of.</summary>
public sealed class CertificateDelivery : IVersioned
{
    public Guid Id { get; init; }
    public Guid CertificateId { get; init; }
    public required string CertificateNumber { get; init; }
    public Guid CustomerId { get; init; }
    public Guid ContactId { get; init; }

    /// <summary>Name and address as they were then.</summary>
    public required string ContactName { get; init; }
    public required string Address { get; init; }

    /// <summary>The language of the mail by ISO 639-1.</summary>
    public required string Language { get; init; }
    public DeliveryKind Kind { get; init; }
    public DateTimeOffset QueuedAt { get; init; }
    public required string QueuedByName { get; init; }

    /// <summary>The queued mail; null where none could be queued.</summary>
    public Guid? MessageId { get; init; }

    /// <summary>Why no mail was queued; null where one was.</summary>
    public string? NotQueued { get; init; }

    /// <summary>When somebody said that the contact was told in another way; null until then.</summary>
    public DateTimeOffset? SettledAt { get; private set; }
    public string? SettledByName { get; private set; }

    /// <summary>How it was told.</summary>
    public string? SettledWords { get; private set; }
    public long Version { get; set; }

    internal void Settle(DateTimeOffset at, string byName, string words) => (SettledAt, SettledByName, SettledWords) = (at, byName, words);
}

/// <summary>Words for people.</summary>
public static class DeliveryWords
{
    /// <summary>What the mail says.</summary>
    public static string Words(this DeliveryKind kind) => kind switch
    {
        DeliveryKind.Issued => "the certificate",
        DeliveryKind.Revised => "the revision",
        DeliveryKind.Suspended => "that it is suspended",
        DeliveryKind.Reinstated => "that it counts again",
        DeliveryKind.Withdrawn => "that it is withdrawn",
        _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, "Not a kind of delivery."),
    };

    /// <summary>Where it is.</summary>
    public static string Words(this DeliveryState state) => state switch
    {
        DeliveryState.NotQueued => "not sent",
        DeliveryState.Queued => "queued",
        DeliveryState.Sent => "sent",
        DeliveryState.Failed => "failed",
        DeliveryState.CameBack => "came back",
        DeliveryState.ToldOtherwise => "told in another way",
        _ => throw new ArgumentOutOfRangeException(nameof(state), state, "Not a state of a delivery."),
    };
}
