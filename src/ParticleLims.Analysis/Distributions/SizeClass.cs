using ParticleLims.Analysis.Quantities;

namespace ParticleLims.Analysis.Distributions;

/// <summary>The share of the mass between two neighbouring apertures (the fraction; ISO 9276-1: a class).</summary>
public sealed record SizeClass
{
    /// <summary>The finer aperture; null below the finest.</summary>
    public Aperture? From { get; init; }

    /// <summary>The coarser aperture; null above the coarsest.</summary>
    public Aperture? To { get; init; }

    /// <summary>The share in percent, exactly, from the curve that was made monotone; not negative.</summary>
    public required Ratio Percent { get; init; }
}
