namespace ParticleLims.Analysis.Sieves;

/// <summary>An effective aperture, or why there is none.</summary>
public sealed record EffectiveApertureReading
{
    /// <summary>The aperture; null if it is refused.</summary>
    public EffectiveAperture? Aperture { get; init; }

    /// <summary>Why it is refused; null if there is one.</summary>
    public string? Refusal { get; init; }
}
