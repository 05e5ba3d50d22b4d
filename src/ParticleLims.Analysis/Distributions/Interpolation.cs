namespace ParticleLims.Analysis.Distributions;

/// <summary>How the curve runs between two measured apertures. It never runs beyond them.</summary>
public enum Interpolation
{
    /// <summary>Straight in aperture and percentage passing.</summary>
    Linear,

    /// <summary>Straight in the logarithm of the aperture and the percentage passing. The default.</summary>
    LogLinear,

    /// <summary>Straight in the Rosin-Rammler net: ln x against ln ln(1/R).</summary>
    RosinRammler,

    /// <summary>Straight in the log-normal net: ln x against the normal quantile of Q.</summary>
    LogNormal,

    /// <summary>A piecewise cubic in ln x that does not overshoot (Fritsch and Carlson; Fritsch and Butland).</summary>
    MonotoneCubic,
}
