using ParticleLims.Analysis.Quantities;

namespace ParticleLims.Analysis.Weighings;

/// <summary>What was weighed (or is given) at one aperture. Which members are needed depends on the procedure.</summary>
public sealed record CutInput
{
    /// <summary>The sieve's nominal aperture.</summary>
    public required Aperture Aperture { get; init; }

    /// <summary>The empty sieve, t. Needed unless the distribution is given.</summary>
    public Mass? Empty { get; init; }

    /// <summary>
    /// The sieve with the powder before sieving, b. Separate portions: needed. Carried residue: needed on the finest
    /// aperture, optional above it. Nested stack: not allowed.
    /// </summary>
    public Mass? Loaded { get; init; }

    /// <summary>The sieve with its residue after sieving, a. Needed unless the distribution is given.</summary>
    public Mass? After { get; init; }

    /// <summary>The percentage passing, from 0 to 100 %. Only for a given distribution, and needed there.</summary>
    public decimal? PassingPercent { get; init; }

    /// <summary>
    /// The standard uncertainty of the percentage passing, in percent, above zero and at most 100. Only for a given distribution, and there for each cut or
    /// for none; it weighs the points in the fits by weighted least squares.
    /// </summary>
    public decimal? PassingStandardUncertaintyPercent { get; init; }

    /// <summary>
    /// How much the residue changed in the last sieving interval; sieving on would change it again, by an unknown part of that. Null for none. Not for a given distribution
    /// (docs/science/uncertainty-inputs.md).
    /// </summary>
    public Mass? LastIntervalChange { get; init; }

    /// <summary>The effective aperture from a reference-material check. Not used while the settings say nominal.</summary>
    public Aperture? EffectiveAperture { get; init; }

    /// <summary>The standard uncertainty of the aperture; null counts as none.</summary>
    public Aperture? ApertureStandardUncertainty { get; init; }
}

/// <summary>The receiver below a nested stack.</summary>
public sealed record ReceiverInput
{
    /// <summary>The empty receiver.</summary>
    public required Mass Empty { get; init; }

    /// <summary>The receiver with what passed the finest sieve.</summary>
    public required Mass After { get; init; }
}
