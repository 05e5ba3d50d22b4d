using ParticleLims.Analysis.Quantities;
using ParticleLims.Instruments.Readings;

namespace ParticleLims.Instruments.Stability;

/// <summary>
/// Decides from the lines of a balance when a reading may be taken: stable by the balance's own word, held for a set time
/// within a set spread, and with the pan cleared since the last weighing if the rules ask for it. A line that the balance sent alone, at
/// the press of its print key, needs no hold; it must differ from the last weighing instead. Time is that of the readings, so the same
/// lines always give the same answer. Thread-safe.
/// </summary>
public sealed class StableReadingWatch
{
    private readonly StableReadingRules _rules;
    private readonly Lock _gate = new();
    private bool _waitsForClearedPan;
    private Mass? _lastLoad;
    private BalanceLine? _latest;
    private Hold? _hold;

    /// <summary>A watch by these rules.</summary>
    /// <param name="rules">When a reading may be taken.</param>
    /// <param name="lastLoadMayBeOnPan">Whether the load of an earlier weighing may still be on the pan, as after a reload of the page.</param>
    /// <param name="lastLoad">What that load weighed, where it is known.</param>
    /// <exception cref="ArgumentException">A rule that could never be met.</exception>
    public StableReadingWatch(StableReadingRules rules, bool lastLoadMayBeOnPan = false, Mass? lastLoad = null)
    {
        ArgumentNullException.ThrowIfNull(rules);
        if (rules.Problems() is { Count: > 0 } problems)
        {
            throw new ArgumentException(string.Join(' ', problems), nameof(rules));
        }

        _rules = rules;
        _waitsForClearedPan = lastLoadMayBeOnPan && rules.PanMustReturnToZero;
        _lastLoad = lastLoad;
    }

    /// <summary>Takes note of a line and says how things stand now.</summary>
    public WatchProgress Observe(BalanceLine line)
    {
        ArgumentNullException.ThrowIfNull(line);
        lock (_gate)
        {
            if (_latest is not null && (line.At - _latest.At > LongestGap(_latest) || line.At < _latest.At))
            {
                _hold = null;
            }

            _latest = line;
            _hold = line is BalanceReading { Stable: true } reading ? Extend(reading) : null;
            return Progress();
        }
    }

    /// <summary>
    /// How things stand at a moment without a new line: after a gap longer than allowed nothing may be taken. Ask this
    /// before taking a reading.
    /// </summary>
    public WatchProgress At(DateTimeOffset now)
    {
        lock (_gate)
        {
            if (_latest is not null && now - _latest.At > LongestGap(_latest))
            {
                Forget();
            }

            return Progress();
        }
    }

    /// <summary>The reading has been taken and is safe: the next one is waited for, if the rules say so after a cleared pan.</summary>
    /// <param name="load">What it weighed, where that is known.</param>
    public void Taken(Mass? load = null)
    {
        lock (_gate)
        {
            _waitsForClearedPan = _rules.PanMustReturnToZero;
            _lastLoad = load ?? (_latest as BalanceReading)?.Mass;
            _hold = null;

            // A print is used up; a balance that goes on sending shows the load again.
            _latest = _latest is BalanceReading { IsPrint: true } ? null : _latest;
        }
    }

    /// <summary>The link was lost: what was held counts no more.</summary>
    public void LinkLost()
    {
        lock (_gate)
        {
            Forget();
        }
    }

    private void Forget()
    {
        _latest = null;
        _hold = null;
    }

    private Hold Extend(BalanceReading reading)
    {
        if (IsNearZero(reading.Mass))
        {
            _waitsForClearedPan = false;
        }

        if (reading.IsPrint)
        {
            return new Hold(reading.At, reading.At, reading.Mass, reading.Mass);
        }

        var spread = _rules.Spread ?? Mass.FromMicrograms(2 * reading.LastDigit.Micrograms);
        return _hold?.With(reading) is { } longer && longer.Highest - longer.Lowest <= spread
            ? longer
            : new Hold(reading.At, reading.At, reading.Mass, reading.Mass);
    }

    private WatchProgress Progress() => _latest switch
    {
        null => new(WaitReason.Reading, 0, null),
        RejectedLine refused => new(WaitReason.ReadableLine, 0, null, refused),
        BalanceReading { IsPrint: true } print => PrintProgress(print),
        BalanceReading reading when _waitsForClearedPan => new(WaitReason.ClearedPan, 0, reading),
        BalanceReading reading when _rules.PanMustReturnToZero && IsNearZero(reading.Mass) => new(WaitReason.Load, 0, reading),
        BalanceReading { Stable: false } reading => new(WaitReason.Stability, 0, reading),
        BalanceReading reading => HoldProgress(reading),
        _ => throw new InvalidOperationException($"A line of the unknown kind {_latest.GetType().Name}."),
    };

    private WatchProgress PrintProgress(BalanceReading print) => print switch
    {
        { Stable: false } => new(WaitReason.Stability, 0, print),
        _ when _rules.PanMustReturnToZero && IsNearZero(print.Mass) => new(WaitReason.Load, 0, print),
        _ when _waitsForClearedPan && !(_lastLoad is { } last && !IsNearZero(print.Mass - last)) => new(WaitReason.AnotherLoad, 0, print),
        _ => new(WaitReason.Nothing, 1, print),
    };

    private TimeSpan LongestGap(BalanceLine line) => line.IsPrint ? _rules.PrintLasts : _rules.LongestGap;

    private WatchProgress HoldProgress(BalanceReading reading)
    {
        if (_hold is null)
        {
            return new(WaitReason.Hold, 0, reading);
        }

        var held = _hold.Until - _hold.From;
        var fraction = _rules.HoldFor == TimeSpan.Zero ? 1 : Math.Min(1, held / _rules.HoldFor);
        return new(fraction < 1 ? WaitReason.Hold : WaitReason.Nothing, fraction, reading);
    }

    private bool IsNearZero(Mass mass) => Math.Abs(mass.Micrograms) <= _rules.NearZero.Micrograms;

    private sealed record Hold(DateTimeOffset From, DateTimeOffset Until, Mass Lowest, Mass Highest)
    {
        public Hold With(BalanceReading reading) => this with
        {
            Until = reading.At,
            Lowest = reading.Mass < Lowest ? reading.Mass : Lowest,
            Highest = reading.Mass > Highest ? reading.Mass : Highest,
        };
    }
}
