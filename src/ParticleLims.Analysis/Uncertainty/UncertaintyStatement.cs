namespace ParticleLims.Analysis.Uncertainty;

/// <summary>How the uncertainties of a result were evaluated.</summary>
public sealed record UncertaintyStatement
{
    /// <summary>The method.</summary>
    public required UncertaintyMethod Method { get; init; }

    /// <summary>The coverage probability as a fraction, without unit.</summary>
    public required double Coverage { get; init; }

    /// <summary>The coverage factor k of the normal distribution for it, without unit; U = k u for the analytic method.</summary>
    public required double CoverageFactor { get; init; }

    /// <summary>The number of trials made; 0 for the analytic method.</summary>
    public required int Trials { get; init; }

    /// <summary>The seed of the trials; null for the analytic method.</summary>
    public long? Seed { get; init; }
}
