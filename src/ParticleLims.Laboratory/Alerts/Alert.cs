using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Alerts;

/// <summary>What the program calls somebody for.</summary>
public enum AlertKind
{
    /// <summary>Wrong passwords, PINs or badges in a burst.</summary>
    WrongSecrets,
    /// <summary>The server's clock was set, or stood still.</summary>
    ClockStep,
    /// <summary>The key that seals certificates is not where it was.</summary>
    SealKeyGone,
    /// <summary>The program ended the last time without ending in order.</summary>
    EndedInDisorder,
}

/// <summary>Something that an administrator has to look at, until one says what it was.</summary>
public sealed class Alert : IVersioned
{
    public Guid Id { get; init; }
    public AlertKind Kind { get; init; }
    public DateTimeOffset At { get; init; }

    /// <summary>What was seen.</summary>
    public required string Words { get; init; }

    /// <summary>Whom or what it is about; empty for nobody in particular.</summary>
    public Guid SubjectId { get; init; }

    /// <summary>When an administrator said what it was; null until then.</summary>
    public DateTimeOffset? ClosedAt { get; set; }
    public Guid? ClosedById { get; set; }
    public string? ClosedByName { get; set; }

    /// <summary>What it was, in the administrator's words.</summary>
    public string? Finding { get; set; }
    public long Version { get; set; }
}

/// <summary>Alerts in words.</summary>
public static class AlertWords
{
    /// <summary>The kind: "Wrong passwords in a burst".</summary>
    public static string Words(this AlertKind kind) => kind switch
    {
        AlertKind.WrongSecrets => "Wrong passwords in a burst",
        AlertKind.ClockStep => "The clock jumped",
        AlertKind.SealKeyGone => "The key of the seal is gone",
        AlertKind.EndedInDisorder => "The program did not end in order",
        _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, "No alert."),
    };
}
