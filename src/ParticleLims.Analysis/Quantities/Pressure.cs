using System.Globalization;

namespace ParticleLims.Analysis.Quantities;

/// <summary>A differential pressure in whole pascals; an air-jet sieving unit draws some 2 to 4 kPa (common practice, no source).</summary>
public readonly record struct Pressure
{
    private Pressure(long pascals) => Pascals = pascals;

    /// <summary>The pressure in pascals (Pa).</summary>
    public long Pascals { get; }

    /// <summary>The pressure in kilopascals (kPa), exactly.</summary>
    public decimal Kilopascals => Pascals / 1_000m;

    /// <summary>A pressure of so many pascals (Pa), from 0 to 200 000 Pa.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Outside that range.</exception>
    public static Pressure FromPascals(long pascals) => pascals is >= 0 and <= 200_000
        ? new Pressure(pascals)
        : throw new ArgumentOutOfRangeException(nameof(pascals), pascals, "A differential pressure lies between 0 Pa and 200 000 Pa.");


    /// <summary>The pressure in kilopascals with its unit, culture invariant: <c>3.2 kPa</c>.</summary>
    public override string ToString() => string.Create(CultureInfo.InvariantCulture, $"{Kilopascals:0.###} kPa");
}
