using ParticleLims.Analysis.Distributions.Functions;
using ParticleLims.Analysis.Quantities;

namespace ParticleLims.Analysis.Distributions;

/// <summary>The share of the mass between two neighbouring apertures (the fraction; ISO 9276-1: a class).</summary>
public sealed record SizeClass
{
    /// <summary>The finer aperture; null below the finest.</summary>
    public Aperture? From { get; init; }

    /// <summary>The coarser aperture; null above the coarsest.</summary>
    public Aperture? To { get; init; }

    /// <summary>The share in percent, exactly, from the curve that was made monotone; not negative.</summary>
    public required Ratio Percent { get; init; }

    /// <summary>
    /// The density q3, the share of the mass (as a fraction) per micrometre of the class's width; null at the open ends
    /// (ISO 9276-1; docs/science/density.md).
    /// </summary>
    public double? DensityPerMicrometre => Bounds is { } bounds ? Share / (bounds.To - bounds.From) : null;

    /// <summary>
    /// The density q3*(ln x), the share of the mass (as a fraction) over the difference of the natural logarithms of the apertures; without unit, null at the
    /// open ends (ISO 9276-1; docs/science/density.md).
    /// </summary>
    public double? LogarithmicDensity => Bounds is { } bounds ? Share / NaturalLogarithm.OfOnePlus((bounds.To - bounds.From) / bounds.From) : null;

    /// <summary>The share as a fraction.</summary>
    internal double Share => (Percent / Ratio.Hundred).ToDouble();

    /// <summary>Both apertures in µm.</summary>
    internal (double From, double To)? Bounds => this is { From: { } from, To: { } to }
        ? (from.ToMicrometres(), to.ToMicrometres())
        : null;
}
