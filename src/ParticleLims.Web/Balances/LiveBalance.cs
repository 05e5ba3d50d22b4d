using ParticleLims.Instruments.Connections;
using ParticleLims.Instruments.Readings;
using ParticleLims.Instruments.Stability;
using LaboratoryReading = ParticleLims.Laboratory.Balances.BalanceReading;

namespace ParticleLims.Web.Balances;

/// <summary>A balance as one screen follows it: its link, its newest line, and whether a reading may be taken. Ends with the screen.</summary>
public sealed class LiveBalance : IDisposable
{
    private readonly StableReadingWatch watch;
    private readonly TimeProvider clock;
    private readonly IDisposable subscription;
    private readonly Lock gate = new();
    private bool left;
    private BalanceLine? observed;

    /// <summary>Begins to follow.</summary>
    /// <param name="connection">The link.</param>
    /// <param name="balanceId">The balance's key, for the readings.</param>
    /// <param name="rules">When a reading may be taken.</param>
    /// <param name="lastLoadMayBeOnPan">Whether what was weighed last may still lie there.</param>
    /// <param name="clock">Tells when a reading has grown too old.</param>
    public LiveBalance(BalanceConnection connection, Guid balanceId, StableReadingRules rules, bool lastLoadMayBeOnPan, TimeProvider clock)
    {
        ArgumentNullException.ThrowIfNull(connection);
        (BalanceId, this.clock) = (balanceId, clock);
        watch = new StableReadingWatch(rules, lastLoadMayBeOnPan);
        Progress = watch.At(clock.GetUtcNow());
        State = connection.State;
        subscription = connection.Subscribe(Follow);
    }

    /// <summary>Told on a background thread at each line and each change of the link.</summary>
    public event EventHandler? Changed;

    /// <summary>The balance's key.</summary>
    public Guid BalanceId { get; }

    /// <summary>The link as it stands.</summary>
    public BalanceState State { get; private set; }

    /// <summary>How near a reading is to being taken.</summary>
    public WatchProgress Progress { get; private set; }

    /// <summary>Looks again whether the newest reading still counts.</summary>
    public WatchProgress Look() => Progress = watch.At(clock.GetUtcNow());

    /// <summary>What lay on the pan has been weighed: the pan is to be cleared before the next reading is taken.</summary>
    public void Taken()
    {
        watch.Taken();
        Look();
    }

    /// <summary>A reading as the laboratory keeps it.</summary>
    public LaboratoryReading ForLaboratory(BalanceReading reading)
    {
        ArgumentNullException.ThrowIfNull(reading);
        return new LaboratoryReading(BalanceId, reading.Mass, reading.Decimals, reading.Stable, reading.RawLine, reading.At);
    }

    /// <inheritdoc />
    public void Dispose()
    {
        lock (gate)
        {
            left = true;
        }

        subscription.Dispose();
    }

    private void Follow(BalanceState state)
    {
        lock (gate)
        {
            // A line may be on its way here while the screen is being left.
            if (left)
            {
                return;
            }

            Take(state);
        }

        Changed?.Invoke(this, EventArgs.Empty);
    }

    private void Take(BalanceState state)
    {
        State = state;
        if (state.Link != BalanceLink.Connected)
        {
            watch.LinkLost();
            observed = null;
            Progress = watch.At(clock.GetUtcNow());
        }
        else if (state.LatestLine is { } line && !ReferenceEquals(line, observed))
        {
            observed = line;
            Progress = watch.Observe(line);
        }
    }
}
