namespace ParticleLims.Laboratory.Sieves;

/// <summary>What a look at the cloth and the frame may find.</summary>
[Flags]
public enum SieveFaults
{
    None = 0,
    Tear = 1,
    Crease = 2,
    Wave = 4,
    SlackCloth = 8,
    Dent = 16,
    LooseJoint = 32,
    BlockedApertures = 64,
    Corrosion = 128,
}

/// <summary>The list by which a sieve is looked at: each fault, and where to look for it.</summary>
public static class SieveFaultList
{
    /// <summary>Every fault, in the order in which one looks.</summary>
    public static IReadOnlyList<SieveFaults> All { get; } = [.. Enum.GetValues<SieveFaults>().Where(fault => fault != SieveFaults.None)];

    /// <summary>The fault as people say it.</summary>
    public static string Words(this SieveFaults fault) => fault switch
    {
        SieveFaults.Tear => "tear",
        SieveFaults.Crease => "crease",
        SieveFaults.Wave => "wave",
        SieveFaults.SlackCloth => "slack cloth",
        SieveFaults.Dent => "dent",
        SieveFaults.LooseJoint => "loose joint",
        SieveFaults.BlockedApertures => "blocked apertures",
        SieveFaults.Corrosion => "corrosion",
        _ => throw new ArgumentOutOfRangeException(nameof(fault), fault, "Not one fault."),
    };

    /// <summary>Where and how to look for it (common practice, no source).</summary>
    public static string WhereToLook(this SieveFaults fault) => fault switch
    {
        SieveFaults.Tear => "Hold the cloth against a lamp and look over all of it, then along the rim: a broken wire or a hole shines.",
        SieveFaults.Crease => "Look flat along the cloth: a sharp line stays where it was folded.",
        SieveFaults.Wave => "Look flat along the cloth: it rises and falls without being touched.",
        SieveFaults.SlackCloth => "Touch the middle lightly with a soft brush: it gives way, or sags under its own weight.",
        SieveFaults.Dent => "Look at the frame and the cloth from the side: no place is pressed in, the frame stands without rocking.",
        SieveFaults.LooseJoint => "Look round where the cloth meets the frame: no gap, no loose solder or glue, no place where powder hides.",
        SieveFaults.BlockedApertures => "Against the lamp: no dark patches, no grains sitting in the apertures after cleaning.",
        SieveFaults.Corrosion => "No stain, rust or green on the wires; the wires are as bright as each other.",
        _ => throw new ArgumentOutOfRangeException(nameof(fault), fault, "Not one fault."),
    };

    /// <summary>All faults of a set in words: "tear, dent"; "none" for none.</summary>
    public static string Listed(this SieveFaults faults) =>
        faults == SieveFaults.None ? "none" : string.Join(", ", All.Where(fault => faults.HasFlag(fault)).Select(Words));
}
