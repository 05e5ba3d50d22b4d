using ParticleLims.Laboratory.Products;

namespace ParticleLims.Laboratory.Cautions;

/// <summary>Hazards in words.</summary>
public static class HazardWords
{
    private static readonly (Hazards Flag, string Words)[] All =
    [
        (Hazards.CombustibleDust, "combustible dust"), (Hazards.LowIgnitionEnergy, "low ignition energy"), (Hazards.Sensitiser, "sensitiser"), (Hazards.Irritant, "irritant"),
        (Hazards.CrystallineSilica, "crystalline silica"), (Hazards.Toxic, "toxic"), (Hazards.ReactiveMetal, "reactive metal"), (Hazards.Oxidiser, "oxidiser"),
    ];

    /// <summary>The hazards as a sheet lists them, none left out.</summary>
    public static string Words(this Hazards? hazards) => hazards switch
    {
        null => "not recorded",
        Hazards.None => "assessed: dust in general, nothing beyond",
        _ => string.Join(", ", All.Where(one => hazards.Value.HasFlag(one.Flag)).Select(one => one.Words)),
    };
}
