namespace ParticleLims.Laboratory.SievingUnits;

/// <summary>What is checked or cared for at a sieving unit.</summary>
public enum UnitCheckKind
{
    /// <summary>Its timer against a stopwatch.</summary>
    Timer,
    /// <summary>The speed of the slotted nozzle against a tachometer.</summary>
    NozzleSpeed,
    /// <summary>The amplitude of a shaker against its scale or a gauge.</summary>
    Amplitude,
    /// <summary>Its pressure gauge against another one.</summary>
    PressureGauge,
    /// <summary>The filter of the vacuum: looked at, cleaned or replaced.</summary>
    Filter,
    /// <summary>Hose and seals: looked at for cracks, kinks and leaks.</summary>
    Hose,
    /// <summary>The clamps of a shaker: whether they hold the stack.</summary>
    Clamps,
}

/// <summary>The unit of a check's figures.</summary>
/// <param name="Symbol">As people write it.</param>
/// <param name="Decimals">So many decimals are kept.</param>
public sealed record UnitFigure(string Symbol, int Decimals)
{
    /// <summary>A figure as it is stored: a whole number of its last decimal.</summary>
    public long Stored(decimal figure) => (long)(figure * Scale);

    /// <summary>A stored figure as people write it.</summary>
    public decimal Read(long stored) => stored / Scale;

    private decimal Scale => Decimals switch { 0 => 1m, 1 => 10m, 2 => 100m, _ => 1_000m };
}

/// <summary>Words, units and which unit has what.</summary>
public static class UnitCheckKinds
{
    private static readonly UnitCheckKind[] AirJet = [UnitCheckKind.Timer, UnitCheckKind.NozzleSpeed, UnitCheckKind.PressureGauge, UnitCheckKind.Filter, UnitCheckKind.Hose];
    private static readonly UnitCheckKind[] Shaker = [UnitCheckKind.Timer, UnitCheckKind.Amplitude, UnitCheckKind.Clamps];

    /// <summary>What is checked at a unit of that kind.</summary>
    public static IReadOnlyList<UnitCheckKind> Of(bool isAirJet) => isAirJet ? AirJet : Shaker;

    /// <summary>The check as people say it.</summary>
    public static string Words(this UnitCheckKind kind) => kind switch
    {
        UnitCheckKind.Timer => "timer",
        UnitCheckKind.NozzleSpeed => "nozzle speed",
        UnitCheckKind.Amplitude => "amplitude",
        UnitCheckKind.PressureGauge => "pressure gauge",
        UnitCheckKind.Filter => "filter",
        UnitCheckKind.Hose => "hose and seals",
        UnitCheckKind.Clamps => "clamps",
        _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, "Not a check."),
    };

    /// <summary>How it is done.</summary>
    public static string Guidance(this UnitCheckKind kind) => kind switch
    {
        UnitCheckKind.Timer => "Set the timer to a usual sieving time, start it together with a stopwatch that has a certificate, and write what the stopwatch shows when the unit stops.",
        UnitCheckKind.NozzleSpeed => "Set the speed, run the unit without powder and with the lid on, and read the tachometer through the lid. Never reach in while the nozzle turns.",
        UnitCheckKind.Amplitude => "Set the amplitude, run the empty stack with its clamps tight, and read it from the scale on the frame or a gauge.",
        UnitCheckKind.PressureGauge => "Put the other gauge on the same line, run the vacuum at the usual pressure, and write what both show.",
        UnitCheckKind.Filter => "Switch the unit off and pull its plug. Look at the filter; clean or replace it as the maker says. The dust in it is the products that were sieved: their cautions count.",
        UnitCheckKind.Hose => "Switch the unit off. Look along the hose and at the seals of lid and sieve for cracks, kinks and powder that leaked.",
        UnitCheckKind.Clamps => "Switch the unit off. Clamp a full stack with lid and receiver: nothing tilts or turns by hand. Let it run for a minute and look again: the clamps have not come loose, lid and frames sit as before, no thread or spring is worn. Keep hands off while it runs.",
        _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, "Not a check."),
    };

    /// <summary>The unit of its figures; null where it has none.</summary>
    public static UnitFigure? Figure(this UnitCheckKind kind) => kind switch
    {
        UnitCheckKind.Timer => new("s", 1),
        UnitCheckKind.NozzleSpeed => new("r/min", 1),
        UnitCheckKind.Amplitude => new("mm", 3),
        UnitCheckKind.PressureGauge => new("kPa", 3),
        _ => null,
    };
}
