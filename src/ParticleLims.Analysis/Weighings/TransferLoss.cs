using ParticleLims.Analysis.Quantities;

namespace ParticleLims.Analysis.Weighings;

/// <summary>What was lost when a residue was carried on from one sieve to the next coarser one.</summary>
public sealed record TransferLoss
{
    /// <summary>The sieve it came from.</summary>
    public required Aperture From { get; init; }

    /// <summary>The sieve it went to.</summary>
    public required Aperture To { get; init; }

    /// <summary>The loss, (a - t) of the finer sieve less (b - t) of the coarser one; negative where it seemed to grow.</summary>
    public required Mass Lost { get; init; }

    /// <summary>The loss in percent of the test portion, exactly.</summary>
    public required Ratio PercentOfPortion { get; init; }
}

/// <summary>What becomes of powder lost while a residue is carried on to the next sieve, where it was weighed again there.</summary>
public enum TransferLossRule
{
    /// <summary>It counts as passing: Q_i = 1 - residue_i / m0.</summary>
    CountAsPassing,

    /// <summary>It is put back in proportion: R_i = R_(i-1) * residue_i / loaded_i.</summary>
    PutBackInProportion,
}
