using ParticleLims.Analysis.Quantities;

namespace ParticleLims.TestLaboratory.SmallLaboratories;

/// <summary>A powder as the sieves find it: how much of it stays above each aperture.</summary>
/// <param name="PortionGrams">The test portion that the technician takes, in g.</param>
/// <param name="RetainedPercent">Percent of the portion coarser than each aperture in µm.</param>
public sealed record Powder(decimal PortionGrams, IReadOnlyDictionary<decimal, decimal> RetainedPercent)
{
    /// <summary>Ground calcite within its specification; its D50 is near 23 µm.</summary>
    public static Powder Calcite { get; } = new(10.000m, new Dictionary<decimal, decimal> { [20m] = 60m, [32m] = 25m, [45m] = 2m, [63m] = 0.2m });

    /// <summary>Ground calcite too coarse: 8 % stay on 45 µm.</summary>
    public static Powder CoarseCalcite { get; } = Calcite with { RetainedPercent = new Dictionary<decimal, decimal> { [20m] = 66m, [32m] = 34m, [45m] = 8m, [63m] = 1m } };

    /// <summary>Pea starch within its specification.</summary>
    public static Powder Starch { get; } = new(20.000m, new Dictionary<decimal, decimal> { [32m] = 30m, [63m] = 3m });

    /// <summary>A spice within its specification.</summary>
    public static Powder Spice { get; } = new(100.000m, new Dictionary<decimal, decimal> { [125m] = 70m, [250m] = 25m, [500m] = 2m });

    /// <summary>A spice of which so much stays on 500 µm.</summary>
    public static Powder SpiceCoarser(decimal percentAbove500) => Spice with { RetainedPercent = new Dictionary<decimal, decimal> { [125m] = 70m, [250m] = 25m, [500m] = percentAbove500 } };

    /// <summary>The mass coarser than an aperture, to the milligram.</summary>
    public decimal ResidueGrams(Aperture aperture) => decimal.Round(PortionGrams * RetainedPercent[aperture.Micrometres] / 100m, 3);
}
