namespace ParticleLims.Analysis.Distributions.Moments;

/// <summary>
/// The outer surface of a powder from its Sauter mean (ISO 9276-2; docs/science/specific-surface.md). The shape factor is the surface of a particle over that of
/// a sphere of the same volume: 1 for spheres, else more; one over the sphericity.
/// </summary>
public static class SpecificSurface
{
    private const double OfSpheres = 6;

    /// <summary>S_V = 6 f / x(1,2), per volume of solid, in m²/cm³.</summary>
    /// <param name="sauterMeanMicrometres">The Sauter mean in micrometres, above zero.</param>
    /// <param name="shapeFactor">The shape factor, without unit.</param>
    public static double PerVolume(double sauterMeanMicrometres, double shapeFactor) => OfSpheres * shapeFactor / sauterMeanMicrometres;

    /// <summary>S_m = 6 f / (ρ x(1,2)), per mass, in m²/g.</summary>
    /// <param name="sauterMeanMicrometres">The Sauter mean in micrometres, above zero.</param>
    /// <param name="shapeFactor">The shape factor, without unit.</param>
    /// <param name="gramsPerCubicCentimetre">The true density in g/cm³, above zero.</param>
    public static double PerMass(double sauterMeanMicrometres, double shapeFactor, double gramsPerCubicCentimetre) =>
        PerVolume(sauterMeanMicrometres, shapeFactor) / gramsPerCubicCentimetre;
}
