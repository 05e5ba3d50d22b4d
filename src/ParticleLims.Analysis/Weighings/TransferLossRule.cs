namespace ParticleLims.Analysis.Weighings;

/// <summary>What becomes of powder lost while a residue is carried on to the next sieve, where it was weighed again there.</summary>
public enum TransferLossRule
{
    /// <summary>It counts as passing: Q_i = 1 - residue_i / m0.</summary>
    CountAsPassing,

    /// <summary>It is put back in proportion: R_i = R_(i-1) * residue_i / loaded_i.</summary>
    PutBackInProportion,
}
