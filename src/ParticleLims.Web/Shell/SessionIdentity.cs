using System.Security.Claims;
using ParticleLims.Laboratory.People;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Web.Shell;

/// <summary>Who a principal is, and in which session.</summary>
internal static class SessionIdentity
{
    public static Guid? PersonId(ClaimsPrincipal? principal) => Read(principal, ClaimTypes.NameIdentifier);

    public static Guid? SessionId(ClaimsPrincipal? principal) => Read(principal, SessionCookie.SessionClaim);

    /// <summary>The actor of a request that carries the session's cookie.</summary>
    public static Actor ActorOf(HttpContext context) => ActorOf(context.User, TerminalCookie.MarkOf(context));

    /// <summary>The actor of a principal. Without a session nobody acts.</summary>
    public static Actor ActorOf(ClaimsPrincipal? principal, string terminal) =>
        PersonId(principal) is { } person && SessionId(principal) is { } session ? new Actor(person, terminal, session) : Actor.Unknown(terminal);

    /// <summary>The session as it stands now; null when the principal has none.</summary>
    public static async Task<SessionSeen?> LookAsync(Sessions sessions, ClaimsPrincipal? principal, CancellationToken cancellation) =>
        SessionId(principal) is { } id && await sessions.LookAsync(id, cancellation) is { } session && session.PersonId == PersonId(principal) ? session : null;

    private static Guid? Read(ClaimsPrincipal? principal, string claim) => Guid.TryParse(principal?.FindFirstValue(claim), out var id) ? id : null;
}
