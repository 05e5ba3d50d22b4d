namespace ParticleLims.Analysis.Balances;

/// <summary>The accuracy classes of weights, finest first (OIML R 111-1:2004; docs/science/weight-tolerances.md).</summary>
public enum WeightClass
{
    /// <summary>E1.</summary>
    E1,

    /// <summary>E2.</summary>
    E2,

    /// <summary>F1.</summary>
    F1,

    /// <summary>F2.</summary>
    F2,

    /// <summary>M1.</summary>
    M1,
}
