namespace ParticleLims.Web.Runs;

/// <summary>
/// At which screen a run is worked on. Only there readings are taken by themselves, under the name of who sits there; other screens
/// follow. Whoever opens the run or touches the screen takes the seat; a screen that came back by itself after a lost connection leaves it to whoever sits there. Kept in memory: nothing depends on it but who acts. Thread-safe.
/// </summary>
public sealed class RunSeats
{
    private readonly Lock gate = new();
    private readonly Dictionary<Guid, (object Screen, string Words)> seats = [];

    /// <summary>Sits down; answers whether somebody else sat there.</summary>
    /// <param name="run">The run.</param>
    /// <param name="screen">The screen.</param>
    /// <param name="words">Who at which terminal, for the others.</param>
    public bool Take(Guid run, object screen, string words)
    {
        lock (gate)
        {
            var taken = !seats.TryGetValue(run, out var before) || !ReferenceEquals(before.Screen, screen);
            seats[run] = (screen, words);
            return taken;
        }
    }

    /// <summary>Sits down where nobody does; answers whether it did.</summary>
    /// <param name="run">The run.</param>
    /// <param name="screen">The screen.</param>
    /// <param name="words">Who at which terminal, for the others.</param>
    public bool TakeIfFree(Guid run, object screen, string words)
    {
        lock (gate)
        {
            return seats.TryAdd(run, (screen, words));
        }
    }

    /// <summary>Who sits there, if it is another screen; null when it is this one or nobody.</summary>
    public string? OtherThan(Guid run, object screen)
    {
        lock (gate)
        {
            return seats.TryGetValue(run, out var seat) && !ReferenceEquals(seat.Screen, screen) ? seat.Words : null;
        }
    }

    /// <summary>Whether this screen sits there.</summary>
    public bool Has(Guid run, object screen)
    {
        lock (gate)
        {
            return seats.TryGetValue(run, out var seat) && ReferenceEquals(seat.Screen, screen);
        }
    }

    /// <summary>Gets up, if this screen sat there.</summary>
    public void Leave(Guid run, object screen)
    {
        lock (gate)
        {
            if (seats.TryGetValue(run, out var seat) && ReferenceEquals(seat.Screen, screen))
            {
                seats.Remove(run);
            }
        }
    }
}
