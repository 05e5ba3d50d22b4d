using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Storage;
using ParticleLims.Laboratory.Terminals;

namespace ParticleLims.Laboratory.People;

/// <summary>When a terminal was last signed on to, and by whom.</summary>
public sealed record LastUse(Guid TerminalId, DateTimeOffset At, string PersonName, bool GoesOn);

/// <summary>Looks at sessions, and ends them. A session that is over stays over; what was done in it keeps its name.</summary>
public sealed class Sessions(WritePath writing, ReadPath reading, TimeProvider clock)
{
    /// <summary>A session and everything on which it rests, in one query.</summary>
    internal static readonly CompiledQuery<Guid, SessionGround?> Ground = new((data, id) => (
        from session in data.Set<Session>().AsNoTracking()
        where session.Id == id
        join person in data.Set<Person>() on session.PersonId equals person.Id
        join terminal in data.Set<Terminal>() on session.TerminalId equals terminal.Id into terminals
        from terminal in terminals.DefaultIfEmpty()
        join badge in data.Set<Badge>() on session.BadgeId equals badge.Id into badges
        from badge in badges.DefaultIfEmpty()
        select new SessionGround(
            session.Id, session.PersonId, person.FullName, person.Active, person.SecurityStamp, session.Stamp, session.TerminalId, session.Terminal, terminal.Name, terminal.WithdrawnAt,
            badge.RevokedAt, session.Way, session.BegunAt, session.EndedAt, session.EndReason)).FirstOrDefault());

    private static readonly DeedKind LockDeed = new("people.lock", "Terminal locked", null);
    private static readonly DeedKind HandOverDeed = new("people.hand-over", "Room made for the next person", null);
    private static readonly DeedKind IdleDeed = new("people.lock-idle", "Terminal locked: nobody touched it", Permission.ActAsProgram);
    private static readonly DeedKind EnrolledDeed = new("people.session-to-terminal", "Session ended: the browser became a shared terminal", null);

    /// <summary>One session as it stands now; null when there is none.</summary>
    public Task<SessionSeen?> LookAsync(Guid id, CancellationToken cancellation) =>
        reading.ReadOpenlyAsync(async (data, _) => (await Ground.AskAsync(data, id))?.At(clock.GetUtcNow()), cancellation);

    /// <summary>The last session at a browser, for the words on its sign-on page; null when there was none.</summary>
    public Task<SessionSeen?> LastAtAsync(TerminalSeen at, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(at);
        var (name, id) = (at.Name, at.Id);
        return reading.ReadOpenlyAsync(async (data, token) =>
        {
            var last = await data.Set<Session>().Where(session => id == null ? session.TerminalId == null && session.Terminal == name : session.TerminalId == id)
                .OrderByDescending(session => session.BegunAt).ThenByDescending(session => session.EndedAt == null).Select(session => (Guid?)session.Id).FirstOrDefaultAsync(token);
            return last is { } found ? (await Ground.AskAsync(data, found))?.At(clock.GetUtcNow()) : null;
        }, cancellation);
    }

    /// <summary>The person locks the terminal: the session is over, and the screen says who was there.</summary>
    public Task<bool> LockAsync(Actor actor, CancellationToken cancellation) => EndAsync(LockDeed, SessionEnd.Locked, actor, cancellation);

    /// <summary>The person makes room for somebody else.</summary>
    public Task<bool> HandOverAsync(Actor actor, CancellationToken cancellation) => EndAsync(HandOverDeed, SessionEnd.HandedOver, actor, cancellation);

    /// <summary>Ends the session of the administrator who has just enrolled this browser: from now on it asks for a badge or a name.</summary>
    public Task<bool> EndEnrolledAsync(Actor actor, CancellationToken cancellation) => EndAsync(EnrolledDeed, SessionEnd.Enrolled, actor, cancellation);

    /// <summary>The program locks a terminal that nobody touched for the set time.</summary>
    public Task<bool> LockIdleAsync(Guid id, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(IdleDeed, Actor.Program), async (scope, token) =>
        {
            var session = await scope.FindAsync<Session>(id, "session", token);
            if (session.EndedAt is not null)
            {
                throw new RefusedException("session-over", "This session is over already.");
            }

            (session.EndedAt, session.EndReason) = (scope.Now, SessionEnd.Idle);
            var person = await scope.FindAsync<Person>(session.PersonId, "person", token);
            scope.About("Person", person.Id, $"{person.FullName} at {session.Terminal}");
            return true;
        }, cancellation);

    /// <summary>When each enrolled terminal was last signed on to.</summary>
    public Task<List<LastUse>> LastUsesAsync(Actor actor, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.KeepTerminals, (data, _, token) => LastUsesAsync(data, token), cancellation);

    private static async Task<List<LastUse>> LastUsesAsync(LaboratoryContext data, CancellationToken cancellation)
    {
        var last = data.Set<Session>().Where(session => session.TerminalId != null).GroupBy(session => session.TerminalId).Select(group => new { group.Key, At = group.Max(session => session.BegunAt) });
        var found = await (
            from session in data.Set<Session>()
            join one in last on new { Key = session.TerminalId, At = session.BegunAt } equals new { one.Key, one.At }
            join person in data.Set<Person>() on session.PersonId equals person.Id
            select new LastUse(session.TerminalId!.Value, session.BegunAt, person.FullName, session.EndedAt == null)).ToListAsync(cancellation);
        return [.. found.OrderByDescending(use => use.GoesOn).DistinctBy(use => use.TerminalId)];
    }

    private Task<bool> EndAsync(DeedKind kind, SessionEnd end, Actor actor, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(kind, actor), async (scope, token) =>
        {
            await SessionOpening.EndAsync(scope, end, token);
            return true;
        }, cancellation);
}
