namespace ParticleLims.Analysis.Sieves;

/// <summary>What a sieve does in use: the aperture of a perfect sieve that would pass as much of a reference material (docs/science/effective-aperture.md).</summary>
public sealed record EffectiveAperture
{
    /// <summary>The effective aperture, in µm.</summary>
    public required double Micrometres { get; init; }

    /// <summary>Its standard uncertainty, in µm: both parts as a root of squares.</summary>
    public double StandardUncertaintyMicrometres =>
        Math.Sqrt((ObservationMicrometres * ObservationMicrometres) + (CertificateMicrometres * CertificateMicrometres));

    /// <summary>The part of the uncertainty that comes from our sieving, in µm.</summary>
    public required double ObservationMicrometres { get; init; }

    /// <summary>The part of the uncertainty that comes from the certificate, in µm.</summary>
    public required double CertificateMicrometres { get; init; }
}
