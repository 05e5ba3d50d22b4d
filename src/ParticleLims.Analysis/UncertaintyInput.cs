using ParticleLims.Analysis.Quantities;

namespace ParticleLims.Analysis;

/// <summary>What an uncertainty evaluation starts from. Not available yet: a request that carries it is refused.</summary>
public sealed record UncertaintyInput
{
    /// <summary>The balance's repeatability as a standard deviation.</summary>
    public required Mass BalanceRepeatability { get; init; }

    /// <summary>The balance's readability d.</summary>
    public required Mass Readability { get; init; }

    /// <summary>The balance's linearity, as a half width.</summary>
    public Mass Linearity { get; init; }

    /// <summary>How the uncertainty is propagated.</summary>
    public UncertaintyMethod Method { get; init; } = UncertaintyMethod.Analytic;

    /// <summary>The number of Monte Carlo trials.</summary>
    public int Trials { get; init; } = 1_000_000;

    /// <summary>The seed of the Monte Carlo trials.</summary>
    public long Seed { get; init; } = 1;

    /// <summary>The coverage probability, between 0 and 1.</summary>
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
