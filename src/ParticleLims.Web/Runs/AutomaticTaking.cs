using ParticleLims.Instruments.Readings;
using ParticleLims.Instruments.Stability;

namespace ParticleLims.Web.Runs;

/// <summary>How the automatic taking of a reading stands.</summary>
public enum TakingState
{
    /// <summary>Something is still waited for.</summary>
    Waiting,

    /// <summary>The reading is stable, but cannot be right.</summary>
    Implausible,

    /// <summary>It will be taken when the countdown is over.</summary>
    CountingDown,

    /// <summary>A touch stopped the countdown: only a person takes it now.</summary>
    Held,

    /// <summary>It is to be taken now.</summary>
    Due,
}

/// <summary>Decides when a stable, plausible reading is taken by itself. Any touch during the countdown stops it.</summary>
public sealed class AutomaticTaking
{
    private readonly TimeSpan countdown;
    private DateTimeOffset? since;
    private BalanceReading? counted;

    /// <summary>With so long a countdown.</summary>
    public AutomaticTaking(TimeSpan countdown) => Left = this.countdown = countdown;

    /// <summary>How it stands.</summary>
    public TakingState State { get; private set; } = TakingState.Waiting;

    /// <summary>What is left of the countdown.</summary>
    public TimeSpan Left { get; private set; }

    /// <summary>Looks at the newest reading.</summary>
    /// <param name="now">The present.</param>
    /// <param name="progress">How near it is to being taken.</param>
    /// <param name="plausible">Whether the mass can be right.</param>
    public TakingState Observe(DateTimeOffset now, WatchProgress progress, bool plausible)
    {
        ArgumentNullException.ThrowIfNull(progress);
        if (State == TakingState.Held)
        {
            return State;
        }

        if (progress.Ready is null || !plausible)
        {
            (since, Left) = (null, countdown);
            return State = progress.Ready is null ? TakingState.Waiting : TakingState.Implausible;
        }

        // Another print is another load: it gets a countdown of its own.
        since = progress.Ready.IsPrint && !ReferenceEquals(counted, progress.Ready) ? now : since ?? now;
        counted = progress.Ready;
        Left = countdown - (now - since.Value);
        return State = Left > TimeSpan.Zero ? TakingState.CountingDown : TakingState.Due;
    }

    /// <summary>Somebody touched the screen or a key: a countdown stops.</summary>
    public void Touch()
    {
        if (State is TakingState.CountingDown or TakingState.Due)
        {
            Hold();
        }
    }

    /// <summary>Nothing is taken by itself until <see cref="GoOn"/>.</summary>
    public void Hold() => (State, since) = (TakingState.Held, null);

    /// <summary>Readings are taken by themselves again.</summary>
    public void GoOn() => (State, since, Left) = (TakingState.Waiting, null, countdown);
}
