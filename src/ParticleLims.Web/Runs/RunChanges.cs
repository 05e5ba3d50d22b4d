namespace ParticleLims.Web.Runs;

/// <summary>Tells open screens that a run was changed at another terminal. Within one program; what counts stands in the database. Thread-safe.</summary>
public sealed class RunChanges
{
    private readonly Lock gate = new();
    private readonly List<Subscription> all = [];

    /// <summary>Calls back at each change of a run, or of any run when none is named, until the result is disposed. Calls may come from any thread.</summary>
    public IDisposable Subscribe(Guid? run, Action changed)
    {
        ArgumentNullException.ThrowIfNull(changed);
        var subscription = new Subscription(this, run, changed);
        lock (gate)
        {
            all.Add(subscription);
        }

        return subscription;
    }

    /// <summary>Says that a run was changed.</summary>
    /// <param name="run">The run.</param>
    /// <param name="by">The subscription of the screen that did it, which knows already.</param>
    public void Tell(Guid run, IDisposable? by = null)
    {
        Subscription[] told;
        lock (gate)
        {
            told = [.. all.Where(one => (one.Run is null || one.Run == run) && !ReferenceEquals(one, by))];
        }

        foreach (var one in told)
        {
            one.Changed();
        }
    }

    private sealed class Subscription(RunChanges owner, Guid? run, Action changed) : IDisposable
    {
        public Guid? Run => run;

        public Action Changed => changed;

        public void Dispose()
        {
            lock (owner.gate)
            {
                owner.all.Remove(this);
            }
        }
    }
}
