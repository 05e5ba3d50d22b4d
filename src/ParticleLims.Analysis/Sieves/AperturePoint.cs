namespace ParticleLims.Analysis.Sieves;

/// <summary>One point of an inspection.</summary>
public sealed record AperturePoint
{
    /// <summary>Whether it is kept; null if it was not determined.</summary>
    public required bool? IsKept { get; init; }

    /// <summary>What was found and what is permitted, in a sentence.</summary>
    public required string Words { get; init; }
}
