using ParticleLims.Analysis.Distributions.Moments;

namespace ParticleLims.Analysis.Distributions;

/// <summary>The numbers that describe a distribution beyond its percentiles.</summary>
public sealed record DistributionSummary
{
    /// <summary>The class of the highest density; null where no mass lies between two apertures.</summary>
    public ModalClass? Mode { get; init; }

    /// <summary>D60/D10; null where nothing can be said.</summary>
    public SizeQuotient? Uniformity { get; init; }

    /// <summary>D30²/(D10 D60); null where nothing can be said.</summary>
    public SizeQuotient? Curvature { get; init; }

    /// <summary>Geometric mean and standard deviation; null where no mass lies between two apertures.</summary>
    public GeometricMoments? Geometric { get; init; }

    /// <summary>Moments and mean diameters; null where no mass lies between two apertures.</summary>
    public SizeMoments? Moments { get; init; }

    /// <summary>The shape factor that the surfaces below are computed with, without unit.</summary>
    public required double ShapeFactor { get; init; }

    /// <summary>The true density in g/cm³; null where none was given.</summary>
    public double? TrueDensityGramsPerCubicCentimetre { get; init; }

    /// <summary>The class of powder fineness; null where the data cannot tell.</summary>
    public FinenessClass? FinenessClass { get; init; }

    /// <summary>The fineness modulus from 150 µm upwards; null where the sieves do not allow it.</summary>
    public FinenessModulus? FinenessModulus { get; init; }

    /// <summary>The surface per volume of the measured part in m²/cm³, with its shape factor; null without moments.</summary>
    public double? VolumeSpecificSurface => VolumeSpecificSurfaceOf(Moments?.SauterMeanMicrometres);

    /// <summary>The surface per mass of the measured part in m²/g (square metres per gram); null without moments or density.</summary>
    public double? MassSpecificSurface => MassSpecificSurfaceOf(Moments?.SauterMeanMicrometres);

    /// <summary>The surface per volume in m²/cm³ that belongs to a Sauter mean in micrometres, as that of a fitted model; null without one.</summary>
    /// <param name="sauterMeanMicrometres">The Sauter mean in micrometres.</param>
    public double? VolumeSpecificSurfaceOf(double? sauterMeanMicrometres) =>
        sauterMeanMicrometres is { } mean ? SpecificSurface.PerVolume(mean, ShapeFactor) : null;

    /// <summary>The surface per mass in m²/g (square metres per gram) that belongs to a Sauter mean in micrometres, as that of a fitted model; null without it or a density.</summary>
    /// <param name="sauterMeanMicrometres">The Sauter mean in micrometres.</param>
    public double? MassSpecificSurfaceOf(double? sauterMeanMicrometres) => VolumeSpecificSurfaceOf(sauterMeanMicrometres) / TrueDensityGramsPerCubicCentimetre;

    internal static DistributionSummary Of(DistributionCurve curve, IReadOnlyList<SizeClass> classes, double? density, double shapeFactor) => new()
    {
        Mode = ModalClass.Of(classes),
        Uniformity = SizeQuotient.Uniformity(curve),
        Curvature = SizeQuotient.Curvature(curve),
        Geometric = GeometricMoments.Of(classes),
        Moments = SizeMoments.Of(classes),
        ShapeFactor = shapeFactor,
        TrueDensityGramsPerCubicCentimetre = density,
        FinenessClass = PowderFineness.Of(curve),
        FinenessModulus = FinenessModulus.Of(curve, ModulusSeries.FromFineSand),
    };
}
