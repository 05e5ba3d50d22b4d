using ParticleLims.Analysis.Statistics.Summaries;

namespace ParticleLims.Analysis.Statistics.Processes;

/// <summary>An index of capability with its interval.</summary>
public sealed record CapabilityIndex
{
    /// <summary>The estimate, without unit.</summary>
    public required double Value { get; init; }

    /// <summary>Where the true index lies.</summary>
    public required Interval Interval { get; init; }
}
