namespace ParticleLims.Analysis;

/// <summary>What a limit speaks of.</summary>
public enum Characteristic
{
    /// <summary>The size in micrometres (µm) of which a share of the mass is finer.</summary>
    Percentile,

    /// <summary>The percentage passing an aperture.</summary>
    Passing,

    /// <summary>The percentage retained on an aperture, cumulative: 100 % less what passes it.</summary>
    Retained,

    /// <summary>(D90 - D10) / D50, without unit.</summary>
    Span,

    /// <summary>The Rosin-Rammler slope n of the straight line, without unit.</summary>
    RosinRammlerSlope,

    /// <summary>The Rosin-Rammler size x' of the straight line in micrometres (µm).</summary>
    RosinRammlerSize,

    /// <summary>The specific surface in m²/g of the mass between the finest and the coarsest aperture, from the classes; it needs the true density.</summary>
    SpecificSurface,
}
