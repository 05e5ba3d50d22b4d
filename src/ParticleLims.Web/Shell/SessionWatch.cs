using System.Collections.Concurrent;

namespace ParticleLims.Web.Shell;

/// <summary>Which session ended.</summary>
/// <param name="session">The session.</param>
public sealed class SessionEndedEventArgs(Guid session) : EventArgs
{
    /// <summary>The session.</summary>
    public Guid Session { get; } = session;
}

/// <summary>
/// When somebody last touched the screens of each session at an enrolled terminal, and the word to open screens that their session is
/// over. Within one program; whether a session counts stands in the database. Thread-safe.
/// </summary>
public sealed class SessionWatch(TimeProvider clock)
{
    private readonly ConcurrentDictionary<Guid, DateTimeOffset> touched = new();

    /// <summary>Raised when a session ended; from any thread.</summary>
    public event EventHandler<SessionEndedEventArgs>? Ended;

    /// <summary>Follows a session from now on; one that is followed already was not touched by this.</summary>
    public void Follow(Guid session) => touched.TryAdd(session, clock.GetUtcNow());

    /// <summary>Somebody touched a screen or a key.</summary>
    public void Touch(Guid session)
    {
        if (touched.TryGetValue(session, out var before))
        {
            touched.TryUpdate(session, clock.GetUtcNow(), before);
        }
    }

    /// <summary>For how long nobody touched it; null when it is not followed.</summary>
    public TimeSpan? Untouched(Guid session) => touched.TryGetValue(session, out var at) ? clock.GetUtcNow() - at : null;

    /// <summary>The sessions that nobody touched for so long.</summary>
    public IReadOnlyList<Guid> UntouchedFor(TimeSpan time)
    {
        var since = clock.GetUtcNow() - time;
        return [.. touched.Where(one => one.Value <= since).Select(one => one.Key)];
    }

    /// <summary>Says that a session is over.</summary>
    public void End(Guid session)
    {
        touched.TryRemove(session, out _);
        Ended?.Invoke(this, new SessionEndedEventArgs(session));
    }
}
