namespace ParticleLims.Analysis.Uncertainty;

/// <summary>
/// The Monte Carlo result of a characteristic, in its unit (µm, %, m²/g or none), and the comparison of the analytic interval with it (JCGM 101:2008, clause 8; docs/science/monte-carlo.md).
/// </summary>
public sealed record TrialComparison
{
    /// <summary>The mean of the trials, in the characteristic's unit.</summary>
    public required double Mean { get; init; }

    /// <summary>The analytic standard uncertainty, in the characteristic's unit.</summary>
    public required double AnalyticStandardUncertainty { get; init; }

    /// <summary>The numerical tolerance δ: half a unit of the last of two significant digits of the trials' standard uncertainty, in the characteristic's unit (7.9.2).</summary>
    public required double Tolerance { get; init; }

    /// <summary>How far the lower ends of the two intervals lie apart, in the characteristic's unit.</summary>
    public required double LowDifference { get; init; }

    /// <summary>How far the upper ends of the two intervals lie apart, in the characteristic's unit.</summary>
    public required double HighDifference { get; init; }

    /// <summary>Whether both ends agree within the tolerance: then the law of propagation is validated for this case.</summary>
    public bool IsAnalyticValidated => LowDifference <= Tolerance && HighDifference <= Tolerance;
}
