namespace ParticleLims.Analysis.Conformity;

/// <summary>What a limit says of a value.</summary>
public enum Verdict
{
    /// <summary>It conforms.</summary>
    Conforms,

    /// <summary>It conforms, but within the guard band.</summary>
    ConformsWithinGuardBand,

    /// <summary>It does not conform, but within the guard band.</summary>
    DoesNotConformWithinGuardBand,

    /// <summary>It does not conform.</summary>
    DoesNotConform,

    /// <summary>The data cannot tell.</summary>
    Undecided,
}
