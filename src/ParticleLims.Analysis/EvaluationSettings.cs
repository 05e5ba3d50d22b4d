using ParticleLims.Analysis.Distributions;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Analysis.Weighings;

namespace ParticleLims.Analysis;

/// <summary>The choices of a method that an evaluation follows.</summary>
public sealed record EvaluationSettings
{
    /// <summary>What 100 % is in a nested stack; without meaning for the other procedures.</summary>
    public PercentBasis Basis { get; init; } = PercentBasis.SumOfFractions;

    /// <summary>How the curve runs between two apertures.</summary>
    public Interpolation Interpolation { get; init; } = Interpolation.LogLinear;

    /// <summary>Which aperture counts.</summary>
    public ApertureChoice Apertures { get; init; } = ApertureChoice.Nominal;

    /// <summary>The percentiles reported, in percent, each between 0 and 100 %; at most 100 of them.</summary>
    public IReadOnlyList<decimal> Percentiles { get; init; } = [10m, 50m, 90m, 97m];

    /// <summary>How a printed value is rounded at a tie.</summary>
    public Rounding Rounding { get; init; } = Rounding.HalfEven;

    /// <summary>What becomes of powder lost between two sieves; only for the carried residue.</summary>
    public TransferLossRule TransferLoss { get; init; } = TransferLossRule.CountAsPassing;

    /// <summary>The recovery in percent below which there is a finding; null for none.</summary>
    public decimal? MinimumRecoveryPercent { get; init; }

    /// <summary>The sum of all transfer losses in percent of the test portion above which there is a finding; null for none.</summary>
    public decimal? MaximumTransferLossPercent { get; init; }

    /// <summary>The true density in g/cm³, for the specific surface; above zero and at most 30. Null for none.</summary>
    public decimal? TrueDensityGramsPerCubicCentimetre { get; init; }

    /// <summary>The shape factor without unit, for the specific surface; above zero and at most 100. Null for that of spheres, 1.</summary>
    public decimal? ShapeFactor { get; init; }
}

/// <summary>Which aperture of a sieve an evaluation uses.</summary>
public enum ApertureChoice
{
    /// <summary>The nominal one.</summary>
    Nominal,

    /// <summary>The effective one from a reference-material check; the nominal one where a sieve has none.</summary>
    Effective,
}
