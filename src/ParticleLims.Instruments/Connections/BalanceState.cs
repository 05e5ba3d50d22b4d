using ParticleLims.Instruments.Readings;

namespace ParticleLims.Instruments.Connections;

/// <summary>What is known of a balance at one moment.</summary>
public sealed record BalanceState
{
    /// <summary>How the link stands.</summary>
    public required BalanceLink Link { get; init; }

    /// <summary>Why the link was lost or not made, in words; kept while connecting anew, null while connected.</summary>
    public string? LostBecause { get; init; }

    /// <summary>
    /// The newest line of the present link, read or refused. Null without a link, so that an old reading can never pass for a
    /// live one.
    /// </summary>
    public BalanceLine? LatestLine { get; init; }

    /// <summary>The newest line if it was a reading, else null.</summary>
    public BalanceReading? Reading => LatestLine as BalanceReading;

    /// <summary>The newest line if it was refused, else null.</summary>
    public RejectedLine? Rejection => LatestLine as RejectedLine;

    /// <summary>When the last line came, on this link or an earlier one; null if none ever did.</summary>
    public DateTimeOffset? LastLineAt { get; init; }

    /// <summary>When the next attempt follows, while the link is lost.</summary>
    public DateTimeOffset? NextTryAt { get; init; }

    /// <summary>Attempts in a row after which no line came.</summary>
    public int FailedTries { get; init; }

    /// <summary>Lines refused since the connection object was made.</summary>
    public long RejectedLines { get; init; }

    /// <summary>How long ago the last line came; null if none ever did.</summary>
    public TimeSpan? AgeOfLastLine(DateTimeOffset now) => now - LastLineAt;
}
