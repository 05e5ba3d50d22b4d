using ParticleLims.Analysis.Quantities;

namespace ParticleLims.Analysis.Uncertainty;

/// <summary>What an uncertainty evaluation starts from, beside what stands at each cut.</summary>
public sealed record UncertaintyInput
{
    /// <summary>The balance's repeatability as a standard deviation.</summary>
    public Mass BalanceRepeatability { get; init; }

    /// <summary>The balance's readability d.</summary>
    public Mass Readability { get; init; }

    /// <summary>The balance's linearity, as a half width.</summary>
    public Mass Linearity { get; init; }

    /// <summary>How far the empty sieve may drift between its two weighings, as a half width; zero for none.</summary>
    public Mass EmptyDrift { get; init; }

    /// <summary>
    /// The standard uncertainty, in percent, that taking the test portion gives to a percentage near 50 %; it falls towards 0 and 100 % as the root of Q (100 - Q) does. From the scatter of
    /// replicates or a fundamental sampling error; 0 to 50 (docs/science/uncertainty-inputs.md).
    /// </summary>
    public decimal PortionStandardUncertaintyPercent { get; init; }

    /// <summary>How the uncertainty is propagated.</summary>
    public UncertaintyMethod Method { get; init; } = UncertaintyMethod.Analytic;

    /// <summary>The number of Monte Carlo trials, 10 000 to 10 000 000; rounded up to the next 200.</summary>
    public int Trials { get; init; } = 1_000_000;

    /// <summary>
    /// For the adaptive procedure (JCGM 101:2008, 7.9): the trials end when each standard uncertainty and interval is stable to so many significant digits, 1 or 2. Null: all trials are made.
    /// </summary>
    public int? StableDigits { get; init; }

    /// <summary>The seed of the Monte Carlo trials.</summary>
    public long Seed { get; init; } = 1;

    /// <summary>The coverage probability, a fraction without unit, from 0.5 to 0.999.</summary>
    public decimal Coverage { get; init; } = 0.95m;
}

/// <summary>How an uncertainty is propagated.</summary>
public enum UncertaintyMethod
{
    /// <summary>The law of propagation of uncertainty (GUM, JCGM 100:2008, clause 5).</summary>
    Analytic,

    /// <summary>Propagation of distributions by trials (JCGM 101:2008).</summary>
    MonteCarlo,
}
