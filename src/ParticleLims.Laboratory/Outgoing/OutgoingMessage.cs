using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Outgoing;

/// <summary>How a message leaves the machine.</summary>
public enum OutgoingWay
{
    /// <summary>By mail, through the laboratory's mail server.</summary>
    Mail,
    /// <summary>As a signed request to another program.</summary>
    Webhook,
}

/// <summary>Where a message is.</summary>
public enum OutgoingState
{
    /// <summary>It waits for its next try.</summary>
    Waiting,
    /// <summary>The other side took it.</summary>
    Sent,
    /// <summary>It was tried <see cref="Backoff.MostTries"/> times; somebody has to look.</summary>
    GivenUp,
    /// <summary>The other side refused it for good, or a mail that was taken came back.</summary>
    Refused,
}

/// <summary>A message to somebody outside: queued in the deed it tells of, sent by the program afterwards, so that neither is without the other.</summary>
public sealed class OutgoingMessage : IVersioned
{
    public Guid Id { get; init; }

    /// <summary>What kind of news it is, for programs: <c>record-head</c>, <c>security-alert</c>, <c>test</c>.</summary>
    public required string Kind { get; init; }
    public OutgoingWay Way { get; init; }

    /// <summary>A mail address, or the address of a webhook, as it was set when the message was queued.</summary>
    public required string Addressee { get; init; }
    public required string Subject { get; init; }
    public required string Text { get; init; }

    /// <summary>What it is about, as the record names it.</summary>
    public required string SubjectKind { get; init; }
    public Guid SubjectId { get; init; }

    /// <summary>The same for programs, as JSON; null where the words are all there is.</summary>
    public string? Facts { get; init; }
    public DateTimeOffset QueuedAt { get; init; }
    public OutgoingState State { get; set; }

    /// <summary>How often it was tried since it was queued or last asked for again.</summary>
    public int Tries { get; set; }

    /// <summary>When it is tried next; null when it is not.</summary>
    public DateTimeOffset? NextTryAt { get; set; }
    public DateTimeOffset? SentAt { get; set; }
    public long Version { get; set; }

    /// <summary>Files that go with it, by reference.</summary>
    public IList<OutgoingAttachment> Attachments { get; init; } = [];

    /// <summary>Every try, also those before it was asked for again.</summary>
    public IList<OutgoingAttempt> Attempts { get; init; } = [];
}

/// <summary>A file that goes with a message. Its bytes stay where they are kept; <see cref="IAttachmentSource"/> fetches them when the message is sent.</summary>
public sealed class OutgoingAttachment
{
    public Guid MessageId { get; init; }
    public int Position { get; init; }
    public required string FileName { get; init; }
    public required string MediaType { get; init; }

    /// <summary>Which source has the bytes.</summary>
    public required string SourceKind { get; init; }

    /// <summary>Under which key.</summary>
    public Guid SourceId { get; init; }
}

/// <summary>One try to send a message, written once.</summary>
public sealed class OutgoingAttempt
{
    public Guid Id { get; init; }
    public Guid MessageId { get; init; }
    public DateTimeOffset At { get; init; }
    public bool Sent { get; init; }

    /// <summary>What the other side answered, or why it could not be asked.</summary>
    public required string Outcome { get; init; }
}
