namespace ParticleLims.Laboratory.People;

/// <summary>A session as it stands now.</summary>
/// <param name="Id">The session.</param>
/// <param name="PersonId">Whose it is.</param>
/// <param name="PersonName">The name.</param>
/// <param name="TerminalId">The enrolled terminal; null at any other browser.</param>
/// <param name="Terminal">The terminal's present name.</param>
/// <param name="Way">How the person signed on.</param>
/// <param name="Over">Why it is over; null while it goes on.</param>
/// <param name="OverSince">Since when, where that is known.</param>
public sealed record SessionSeen(Guid Id, Guid PersonId, string PersonName, Guid? TerminalId, string Terminal, SignOnWay Way, SessionEnd? Over, DateTimeOffset? OverSince)
{
    /// <summary>Whether it is over, and why, in words for whoever stands at the screen.</summary>
    public string? Words => Over switch
    {
        null => null,
        SessionEnd.SignedOff => $"{PersonName} signed off.",
        SessionEnd.Locked => $"{PersonName} locked this terminal.",
        SessionEnd.HandedOver => $"{PersonName} made room for the next person.",
        SessionEnd.Idle => $"Locked, because nobody touched it for a while. {PersonName} was here last.",
        SessionEnd.TakenOver => $"Somebody else signed on in this browser, so the session of {PersonName} is over.",
        SessionEnd.Enrolled => $"This browser is the shared terminal “{Terminal}” now.",
        SessionEnd.AccountDisabled => $"The account of {PersonName} was disabled, so the session is over. Ask the administrator.",
        SessionEnd.AccessChanged => $"The roles or the password of {PersonName} were changed, so the session is over. Sign on again.",
        SessionEnd.BadgeRevoked => $"The badge of {PersonName} was revoked, so the session is over. Ask the administrator for another one.",
        SessionEnd.TerminalWithdrawn => $"The terminal “{Terminal}” was withdrawn, so the session of {PersonName} is over. Ask the administrator.",
        SessionEnd.Expired => FormattableString.Invariant($"A session lasts {Session.Longest.TotalHours} hours at most, so the session of {PersonName} is over. Sign on again."),
        _ => throw new InvalidOperationException($"{Over} is not an end."),
    };
}

/// <summary>What is stored of a session and of everything on which it rests.</summary>
internal sealed record SessionGround(
    Guid Id, Guid PersonId, string PersonName, bool Active, string? StampNow, string Stamp, Guid? TerminalId, string TerminalThen, string? TerminalNow, DateTimeOffset? WithdrawnAt,
    DateTimeOffset? BadgeRevokedAt, SignOnWay Way, DateTimeOffset BegunAt, DateTimeOffset? EndedAt, SessionEnd? End)
{
    /// <summary>The session at an instant.</summary>
    public SessionSeen At(DateTimeOffset now)
    {
        var (over, since) = Over(now);
        return new SessionSeen(Id, PersonId, PersonName, TerminalId, TerminalNow ?? TerminalThen, Way, over, since);
    }

    private (SessionEnd? Why, DateTimeOffset? Since) Over(DateTimeOffset now) =>
        End is { } end ? (end, EndedAt)
        : !Active ? (SessionEnd.AccountDisabled, null)
        : Stamp != StampNow ? (SessionEnd.AccessChanged, null)
        : BadgeRevokedAt is { } revoked ? (SessionEnd.BadgeRevoked, revoked)
        : WithdrawnAt is { } withdrawn ? (SessionEnd.TerminalWithdrawn, withdrawn)
        : now - BegunAt >= Session.Longest ? (SessionEnd.Expired, BegunAt + Session.Longest)
        : (null, null);
}
