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

    /// <summary>The alternative designation of ASTM E11 by size in inches, <c>3/4</c> for 19 mm; null where it has none. From memory.</summary>
    public string? E11Inches { get; init; }

    /// <summary>The alternative designation of ASTM E11 as written, <c>No. 230</c> or <c>3/4 in.</c>; null where it has none.</summary>
    public string? E11Designation => E11Number is not null ? "No. " + E11Number : E11Inches is not null ? E11Inches + " in." : null;
}
