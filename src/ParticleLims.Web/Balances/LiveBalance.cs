using ParticleLims.Analysis.Quantities;
using ParticleLims.Instruments.Connections;
using ParticleLims.Instruments.Readings;
using ParticleLims.Instruments.Stability;
using ParticleLims.Laboratory.Balances;
using BalanceReading = ParticleLims.Instruments.Readings.BalanceReading;
using LaboratoryReading = ParticleLims.Laboratory.Balances.BalanceReading;

namespace ParticleLims.Web.Balances;

/// <summary>A balance as one screen follows it: its link, its newest line, and whether a reading may be taken. Ends with the screen.</summary>
public sealed class LiveBalance : IDisposable
{
    private static readonly TimeSpan BetweenTicks = TimeSpan.FromMilliseconds(250);
    private readonly StableReadingWatch watch;
    private readonly TimeProvider clock;
    private readonly IDisposable subscription;
    private readonly ITimer? ticking;
    private readonly Lock gate = new();
    private bool left;
    private BalanceLine? observed;

    /// <summary>Begins to follow.</summary>
    /// <param name="source">Its lines.</param>
    /// <param name="balance">The balance.</param>
    /// <param name="rules">When a reading may be taken.</param>
    /// <param name="lastLoadMayBeOnPan">Whether what was weighed last may still lie there.</param>
    /// <param name="clock">Tells when a reading has grown too old.</param>
    /// <param name="lastLoad">What was weighed last, where it is known.</param>
    public LiveBalance(ILineSource source, Balance balance, StableReadingRules rules, bool lastLoadMayBeOnPan, TimeProvider clock, Mass? lastLoad = null)
    {
        ArgumentNullException.ThrowIfNull(source);
        ArgumentNullException.ThrowIfNull(balance);
        (Source, BalanceId, WayIn, this.clock) = (source, balance.Id, balance.WayIn, clock);
        watch = new StableReadingWatch(rules, lastLoadMayBeOnPan, lastLoad);
        Progress = watch.At(clock.GetUtcNow());
        State = source.State;

        // A line that came before is not what lies on the pan now.
        observed = State.LatestLine;
        subscription = source.Subscribe(Follow);
        ticking = Prints ? clock.CreateTimer(_ => Tick(), null, BetweenTicks, BetweenTicks) : null;
    }

    /// <summary>Told on a background thread at each line and each change of the link.</summary>
    public event EventHandler? Changed;

    /// <summary>Where its lines come from.</summary>
    public ILineSource Source { get; }

    /// <summary>The balance's key.</summary>
    public Guid BalanceId { get; }

    /// <summary>By which way its readings come in.</summary>
    public WayIn WayIn { get; }

    /// <summary>Whether it sends one line for each press of its print key.</summary>
    public bool Prints => Source.Format.EachLineIsPrint;

    /// <summary>The link as it stands.</summary>
    public BalanceState State { get; private set; }

    /// <summary>How near a reading is to being taken.</summary>
    public WatchProgress Progress { get; private set; }

    /// <summary>Looks again whether the newest reading still counts.</summary>
    public WatchProgress Look() => Progress = watch.At(clock.GetUtcNow());

    /// <summary>What lay on the pan has been weighed: the pan is to be cleared before the next reading is taken.</summary>
    /// <param name="load">What it weighed.</param>
    public void Taken(Mass? load)
    {
        watch.Taken(load);
        Look();
    }

    /// <summary>A reading as the laboratory keeps it.</summary>
    public LaboratoryReading ForLaboratory(BalanceReading reading)
    {
        ArgumentNullException.ThrowIfNull(reading);
        return new LaboratoryReading(BalanceId, reading.Mass, reading.Decimals, reading.Stable, reading.RawLine, reading.At) { WayIn = WayIn };
    }

    /// <inheritdoc />
    public void Dispose()
    {
        lock (gate)
        {
            left = true;
        }

        subscription.Dispose();
        ticking?.Dispose();
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

    // No line follows a print, so time alone tells when it is to be taken and when it has grown too old.
    private void Tick()
    {
        lock (gate)
        {
            if (left)
            {
                return;
            }

            Look();
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
