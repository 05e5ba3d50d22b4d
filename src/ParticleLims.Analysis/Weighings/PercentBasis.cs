namespace ParticleLims.Analysis.Weighings;

/// <summary>What 100 % is in a nested stack.</summary>
public enum PercentBasis
{
    /// <summary>The sum W of all fractions with the receiver: what was lost counts nowhere.</summary>
    SumOfFractions,

    /// <summary>The test portion m0 that was put on: what was lost counts as passing.</summary>
    Portion,
}
