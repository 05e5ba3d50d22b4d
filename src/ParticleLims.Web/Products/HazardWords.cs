using ParticleLims.Laboratory.Products;

namespace ParticleLims.Web.Products;

/// <summary>Hazard flags in words.</summary>
public static class HazardWords
{
    /// <summary>Said wherever a product's hazards were never recorded.</summary>
    public const string NotRecorded = "not recorded: samples may not be opened";

    /// <summary>Every flag with its words.</summary>
    public static IReadOnlyList<(Hazards Flag, string Words)> Flags { get; } =
    [
        (Hazards.CombustibleDust, "combustible dust"),
        (Hazards.LowIgnitionEnergy, "low ignition energy"),
        (Hazards.Sensitiser, "sensitiser"),
        (Hazards.Irritant, "irritant"),
        (Hazards.CrystallineSilica, "crystalline silica"),
        (Hazards.Toxic, "toxic"),
        (Hazards.ReactiveMetal, "reactive metal"),
        (Hazards.Oxidiser, "oxidiser"),
    ];

    /// <summary>The hazards in words; unrecorded ones are said to be so.</summary>
    public static string Of(Hazards? hazards) => hazards switch
    {
        null => NotRecorded,
        Hazards.None => "assessed: nothing beyond dust in general",
        { } known => string.Join(", ", Flags.Where(flag => known.HasFlag(flag.Flag)).Select(flag => flag.Words)),
    };
}
