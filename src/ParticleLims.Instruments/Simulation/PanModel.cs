using ParticleLims.Analysis.Quantities;

namespace ParticleLims.Instruments.Simulation;

/// <summary>
/// What a balance would show at a moment of its own time: the load, what is left of each knock it had (an exponential
/// decay that swings once over the mark), the creep of the zero, the noise, in whole steps of the last digit. Not thread-safe.
/// </summary>
internal sealed class PanModel(SimulatedBalanceOptions options)
{
    // With a swing of six time constants the first overshoot is e^-3, about 5 % of the load: chosen to look like a balance.
    private const double SwingInTimeConstants = 6;
    private const double ShortestSettling = 0.25;
    private const double ZeroRange = 0.02;

    private readonly Random _random = new(options.Seed);
    private readonly double _step = options.Readability.Micrograms;
    private readonly double _timeConstant =
        options.SettleTime.TotalSeconds / Math.Log(2.0 * options.Capacity.Micrograms / options.Readability.Micrograms + Math.E);

    private readonly List<Knock> _knocks = [];
    private double _zero;
    private double _tare;

    public Mass Load { get; private set; }

    public void Put(Mass load, double now)
    {
        AddKnock(Load.Micrograms - load.Micrograms, now);
        Load = load;
    }

    public void Disturb(double now) => AddKnock(200 * _step, now);

    /// <summary>Shows zero at the present load from now on.</summary>
    public void Tare(double now) => _tare = Load.Micrograms + Creep(now) - _zero;

    /// <summary>Sets the zero of the empty pan and forgets the tare; refused with more than 2 % of the capacity on it.</summary>
    public bool Zero(double now)
    {
        if (Math.Abs(Load.Micrograms) > ZeroRange * options.Capacity.Micrograms)
        {
            return false;
        }

        (_zero, _tare) = (Load.Micrograms + Creep(now), 0);
        return true;
    }

    public PanView Look(double now)
    {
        _knocks.RemoveAll(knock => Size(knock, now) < _step / 1000);
        if (Load == Mass.Zero && _knocks.Count == 0 && _tare == 0)
        {
            // An empty pan that stands still is kept at zero, as balances do, or the creep would pile up over days.
            _zero = Creep(now);
        }

        var gross = Load.Micrograms + Creep(now) - _zero + _knocks.Sum(knock => Swing(knock, now));
        var steps = Math.Round((gross - _tare) / _step + Noise());
        return new PanView(
            Mass.FromMicrograms((long)steps * options.Readability.Micrograms),
            _knocks.TrueForAll(knock => IsOver(knock, now)),
            gross > options.Capacity.Micrograms + _step);
    }

    private void AddKnock(double amplitude, double now)
    {
        if (amplitude != 0)
        {
            _knocks.Add(new Knock(now, amplitude));
        }
    }

    private bool IsOver(Knock knock, double now) =>
        now - knock.At >= ShortestSettling * options.SettleTime.TotalSeconds && Size(knock, now) <= _step / 2;

    private double Size(Knock knock, double now) => Math.Abs(knock.Amplitude) * Math.Exp(-(now - knock.At) / _timeConstant);

    private double Swing(Knock knock, double now)
    {
        var elapsed = (now - knock.At) / _timeConstant;
        return knock.Amplitude * Math.Exp(-elapsed) * Math.Cos(2 * Math.PI * elapsed / SwingInTimeConstants);
    }

    private double Creep(double now) => options.DriftPerHour.Micrograms * now / 3600;

    // Normal deviates by the method of Box and Muller.
    private double Noise() => options.NoiseSteps * Math.Sqrt(-2 * Math.Log(1 - _random.NextDouble()))
        * Math.Cos(2 * Math.PI * _random.NextDouble());

    private sealed record Knock(double At, double Amplitude);
}

/// <summary>What the balance shows.</summary>
internal sealed record PanView(Mass Shown, bool Stable, bool Overloaded);
