namespace ParticleLims.Analysis.Sieves;

/// <summary>A point of a reference material's certificate: what passes a sieve of exactly this aperture.</summary>
public sealed record CertifiedPoint
{
    /// <summary>The aperture, in µm.</summary>
    public required double ApertureMicrometres { get; init; }

    /// <summary>The cumulative mass passing it (%).</summary>
    public required double PassingPercent { get; init; }

    /// <summary>The standard uncertainty of the mass passing (%); zero if the certificate gives it for the aperture.</summary>
    public double PassingUncertaintyPercent { get; init; }

    /// <summary>The standard uncertainty of the aperture, in µm; zero if the certificate gives it for the mass passing.</summary>
    public double ApertureUncertaintyMicrometres { get; init; }
}
