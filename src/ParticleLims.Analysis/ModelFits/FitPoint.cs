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

    /// <summary>Percent passing.</summary>
    public required double Percent { get; init; }

    /// <summary>Its standard uncertainty in percent; null where none is known.</summary>
    public double? Uncertainty { get; init; }

    /// <summary>The passing part of the whole, from 0 to 1.</summary>
    public required double Share { get; init; }

    /// <summary>What is left of the whole, rounded by itself, so that nothing is lost near one.</summary>
    public required double Rest { get; init; }

    /// <summary>Whether it has a place in a net.</summary>
    public required bool IsBetween { get; init; }

    public static IReadOnlyList<FitPoint> Of(IReadOnlyList<MeasuredCut> cuts)
    {
        var points = new FitPoint[cuts.Count];
        for (var i = 0; i < points.Length; i++)
        {
            points[i] = Of(cuts[i]);
        }

        return points;
    }

    private static FitPoint Of(MeasuredCut cut)
    {
        var share = cut.PassingPercent / Ratio.Hundred;
        return new FitPoint
        {
            Aperture = cut.UsedAperture,
            LogSize = NaturalLogarithm.Of(cut.UsedAperture.ToMicrometres()),
            Percent = cut.PassingPercent.ToDouble(),
            Share = share.ToDouble(),
            Rest = (Ratio.One - share).ToDouble(),
            IsBetween = share > Ratio.Zero && share < Ratio.One,
            Uncertainty = cut.PassingStandardUncertaintyPercent,
        };
    }
}
