namespace ParticleLims.Analysis.Uncertainty;

/// <summary>What an input of an uncertainty budget is.</summary>
public enum InputKind
{
    /// <summary>The weighing of the empty sieve, in g.</summary>
    EmptySieve,

    /// <summary>The weighing of the sieve with powder before sieving, in g.</summary>
    LoadedSieve,

    /// <summary>The weighing of the sieve with its residue, in g.</summary>
    SieveAfterSieving,

    /// <summary>The weighing of the empty receiver, in g.</summary>
    EmptyReceiver,

    /// <summary>The weighing of the receiver with what passed, in g.</summary>
    ReceiverAfterSieving,

    /// <summary>The weighing of the test portion, in g.</summary>
    TestPortion,

    /// <summary>The drift of the empty sieve between its two weighings, in g.</summary>
    EmptyDrift,

    /// <summary>Powder that would still pass if sieving went on, in g.</summary>
    IncompleteSieving,

    /// <summary>Taking the test portion from the sample, in percent.</summary>
    TakingTestPortion,

    /// <summary>The aperture of the sieve, in µm.</summary>
    SieveAperture,

    /// <summary>A percentage passing that was measured elsewhere, in percent.</summary>
    GivenPercentage,
}
