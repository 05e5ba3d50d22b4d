namespace ParticleLims.Analysis.Quantities;

/// <summary>Units in which gauges show a differential pressure.</summary>
public enum PressureUnit
{
    /// <summary>Pa.</summary>
    Pascal,

    /// <summary>hPa, the same as mbar: 100 Pa.</summary>
    Hectopascal,

    /// <summary>kPa: 1000 Pa.</summary>
    Kilopascal,

    /// <summary>mm of water, conventional: 9.80665 Pa.</summary>
    MillimetreOfWater,

    /// <summary>Inch of water at 4 °C: 249.089 Pa.</summary>
    InchOfWater,
}

/// <summary>Names and sizes of the units of pressure.</summary>
public static class PressureUnits
{
    private static readonly (string Symbol, PressureUnit Unit)[] Symbols =
    [
        ("Pa", PressureUnit.Pascal), ("hPa", PressureUnit.Hectopascal), ("mbar", PressureUnit.Hectopascal), ("kPa", PressureUnit.Kilopascal), ("mmH2O", PressureUnit.MillimetreOfWater),
        ("inH2O", PressureUnit.InchOfWater), ("inWC", PressureUnit.InchOfWater),
    ];

    /// <summary>The unit's symbol.</summary>
    public static string Symbol(this PressureUnit unit) => Symbols.First(one => one.Unit == unit).Symbol;

    /// <summary>The unit of a symbol, in any case: Pa, hPa, mbar, kPa, mmH2O, inH2O, inWC; null for another.</summary>
    public static PressureUnit? Find(string symbol) =>
        Symbols.Where(one => string.Equals(one.Symbol, symbol, StringComparison.OrdinalIgnoreCase)).Select(one => (PressureUnit?)one.Unit).FirstOrDefault();

    /// <summary>So much of a unit in whole pascals (Pa), to the nearest; null outside 0 to 200 000 Pa. Sources: SI brochure; conventional millimetre of water; inch of water at 4 °C, 249.089 Pa (common practice).</summary>
    public static Pressure? Of(decimal value, PressureUnit unit)
    {
        var factor = unit switch
        {
            PressureUnit.Pascal => 1m,
            PressureUnit.Hectopascal => 100m,
            PressureUnit.Kilopascal => 1_000m,
            PressureUnit.MillimetreOfWater => 9.80665m,
            PressureUnit.InchOfWater => 249.089m,
            _ => throw new ArgumentOutOfRangeException(nameof(unit), unit, "Not a unit of pressure."),
        };
        return value < 0 || value > 200_000m / factor ? null : Pressure.FromPascals((long)decimal.Round(value * factor, MidpointRounding.ToEven));
    }
}
