using ParticleLims.Analysis.Distributions.Functions;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Analysis.Weighings;

namespace ParticleLims.Analysis.ModelFits;

/// <summary>A measured point as a fit takes it.</summary>
internal sealed record FitPoint
{
    public required Aperture Aperture { get; init; }

    /// <summary>ln(x / 1 µm).</summary>
    public required double LogSize { get; init; }

    /// <summary>Percent passing, exactly.</summary>
    public required Ratio Exact { get; init; }

    /// <summary>Percent passing.</summary>
    public required double Percent { get; init; }

    /// <summary>Its standard uncertainty in percent; null where none is known.</summary>
    public double? Uncertainty { get; init; }

    /// <summary>Whether it has a place in a net.</summary>
    public bool IsBetween => Exact > Ratio.Zero && Exact < Ratio.Hundred;

    public static IReadOnlyList<FitPoint> Of(IReadOnlyList<MeasuredCut> cuts) => cuts.Select(cut => new FitPoint
    {
        Aperture = cut.UsedAperture,
        LogSize = NaturalLogarithm.Of(Ratio.Of(cut.UsedAperture.Nanometres, 1_000).ToDouble()),
        Exact = cut.PassingPercent,
        Percent = cut.PassingPercent.ToDouble(),
        Uncertainty = cut.PassingStandardUncertaintyPercent,
    }).ToList();
}
