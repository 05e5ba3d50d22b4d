namespace ParticleLims.Analysis.Weighings;

/// <summary>How the powder met the sieves.</summary>
public enum Procedure
{
    /// <summary>Air jet, a new test portion for each sieve.</summary>
    SeparatePortions,

    /// <summary>Air jet, one test portion; the residue is carried on to the next coarser sieve.</summary>
    CarriedResidue,

    /// <summary>All sieves at once over a receiver.</summary>
    NestedStack,

    /// <summary>No weighings: the percentage passing each aperture is given.</summary>
    GivenDistribution,
}
