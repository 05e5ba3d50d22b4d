using ParticleLims.Analysis.Quantities;

namespace ParticleLims.Analysis.ModelFits;

/// <summary>How far a point lies from a fitted model.</summary>
public sealed record FitResidual
{
    /// <summary>The aperture of the point.</summary>
    public required Aperture Aperture { get; init; }

    /// <summary>Measured less fitted percentage passing, in percent.</summary>
    public required double PassingPercent { get; init; }

    /// <summary>What the fit made small, without unit: for a straight line the difference in the net's ordinate, else the difference in percent over its standard uncertainty.</summary>
    public required double Minimised { get; init; }
}
