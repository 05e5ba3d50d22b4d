namespace ParticleLims.Analysis.Sampling;

/// <summary>A size class of a material to be sampled.</summary>
public sealed record SampledClass
{
    /// <summary>The mass fraction of the class, from 0 to 1.</summary>
    public required double Share { get; init; }

    /// <summary>The size of its particles in µm: the mean of the class, or its upper aperture to be safe.</summary>
    public required double SizeMicrometres { get; init; }
}
