using System.Security.Cryptography;
using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Terminals;

namespace ParticleLims.Laboratory.People;

/// <summary>Who signed on, for the session cookie.</summary>
/// <param name="PersonId">The person.</param>
/// <param name="SignOnName">The sign-on name.</param>
/// <param name="FullName">The printed name.</param>
/// <param name="SessionId">The session that began.</param>
/// <param name="Ended">The sessions at the same terminal that are over by it.</param>
public sealed record SignedOn(Guid PersonId, string SignOnName, string FullName, Guid SessionId, IReadOnlyList<Guid> Ended);

/// <summary>Begins and ends sessions within a deed. At one terminal there is one session: whoever was signed on there before is not any more.</summary>
internal static class SessionOpening
{
    public static async Task<SignedOn> OpenAsync(DeedScope scope, Person person, TerminalSeen at, SignOnWay way, Guid? badgeId, CancellationToken cancellation)
    {
        var ended = new List<Guid>();
        foreach (var before in await OpenAtAsync(scope, at, cancellation))
        {
            (before.EndedAt, before.EndReason) = (scope.Now, before.PersonId == person.Id ? SessionEnd.SignedOff : SessionEnd.TakenOver);
            ended.Add(before.Id);
        }

        var session = new Session
        {
            Id = new Guid(RandomNumberGenerator.GetBytes(16)), PersonId = person.Id, Terminal = at.Name, TerminalId = at.Id, BadgeId = badgeId, Way = way, Stamp = person.SecurityStamp!, BegunAt = scope.Now,
        };
        scope.Data.Add(session);
        return new SignedOn(person.Id, person.UserName!, person.FullName, session.Id, ended);
    }

    /// <summary>Ends the actor's own session.</summary>
    public static async Task EndAsync(DeedScope scope, SessionEnd end, CancellationToken cancellation)
    {
        var person = scope.PersonId;
        var session = scope.Deed.By.SessionId is { } id ? await scope.FindAsync<Session>(id, "session", cancellation) : throw new RefusedException("no-session", "There is no session here that could end. Sign on first.");
        (session.EndedAt, session.EndReason) = (scope.Now, end);
        scope.About("Person", person, $"{scope.By.Name} at {scope.Terminal}");
    }

    private static Task<List<Session>> OpenAtAsync(DeedScope scope, TerminalSeen at, CancellationToken cancellation)
    {
        var (name, id, since) = (at.Name, at.Id, scope.Now - Session.Longest);
        return scope.Data.Set<Session>().Where(session => session.EndedAt == null && session.BegunAt > since && (id == null ? session.TerminalId == null && session.Terminal == name : session.TerminalId == id)).ToListAsync(cancellation);
    }
}
