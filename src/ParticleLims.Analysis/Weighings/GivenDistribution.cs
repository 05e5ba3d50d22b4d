using ParticleLims.Analysis.Quantities;

namespace ParticleLims.Analysis.Weighings;

/// <summary>A table of percentages passing that was measured elsewhere.</summary>
internal static class GivenDistribution
{
    public static WeighedTable Evaluate(IReadOnlyList<OrderedCut> cuts) => new()
    {
        Cuts = cuts.Select(cut => new MeasuredCut
        {
            Aperture = cut.Aperture,
            UsedAperture = cut.UsedAperture,
            RetainedPercent = Ratio.Hundred - Ratio.FromDecimal(cut.Input.PassingPercent.GetValueOrDefault()),
            PassingStandardUncertaintyPercent = cut.Input.PassingStandardUncertaintyPercent is { } u ? Ratio.FromDecimal(u).ToDouble() : null,
        }).ToList(),
    };
}
