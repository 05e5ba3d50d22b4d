namespace ParticleLims.Laboratory.Heads;

/// <summary>One head of the record that left the machine; written once.</summary>
public sealed class HeadLeaving
{
    public Guid Id { get; init; }

    /// <summary>The number of the last event then.</summary>
    public long Sequence { get; init; }

    /// <summary>Its hash.</summary>
    public required string Hash { get; init; }

    /// <summary>When that event was.</summary>
    public DateTimeOffset EventAt { get; init; }
    public DateTimeOffset LeftAt { get; init; }

    /// <summary>The file as it left, signature and all.</summary>
    public required string Text { get; init; }

    /// <summary>Where it went, in words; empty where it went nowhere.</summary>
    public required string Places { get; init; }

    /// <summary>What kept it from the folder; null for nothing.</summary>
    public string? Fault { get; init; }

    /// <summary>Whether it is outside, or on its way there.</summary>
    public bool Outside { get; init; }
}
