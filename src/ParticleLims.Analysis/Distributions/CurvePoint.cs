using ParticleLims.Analysis.Quantities;

namespace ParticleLims.Analysis.Distributions;

/// <summary>One point of the cumulative curve.</summary>
public sealed record CurvePoint
{
    /// <summary>The aperture.</summary>
    public required Aperture Aperture { get; init; }

    /// <summary>The percentage passing as measured, exactly.</summary>
    public required Ratio MeasuredPercent { get; init; }

    /// <summary>The percentage passing after the curve was made monotone, exactly.</summary>
    public required Ratio PassingPercent { get; init; }
}
