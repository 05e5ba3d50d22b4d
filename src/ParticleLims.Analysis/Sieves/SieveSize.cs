using ParticleLims.Analysis.Quantities;

namespace ParticleLims.Analysis.Sieves;

/// <summary>A nominal aperture of the test-sieve standards.</summary>
public sealed record SieveSize
{
    /// <summary>The nominal aperture w.</summary>
    public required Aperture Aperture { get; init; }

    /// <summary>The ISO 565 series it belongs to.</summary>
    public required SieveSeriesMembership Series { get; init; }

    /// <summary>The alternative designation of ASTM E11, <c>230</c> for 63 µm; null where it has none by number.</summary>
    public string? E11Number { get; init; }
}
