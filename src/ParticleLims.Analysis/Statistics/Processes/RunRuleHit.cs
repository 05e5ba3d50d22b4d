using System.Collections.Immutable;

namespace ParticleLims.Analysis.Statistics.Processes;

/// <summary>Where a run rule is broken.</summary>
public sealed record RunRuleHit
{
    /// <summary>Which one.</summary>
    public required RunRule Rule { get; init; }

    /// <summary>The points that break it, as places from zero; the last of them completes it.</summary>
    public required ImmutableArray<int> Points { get; init; }

    /// <summary>The rule in a sentence.</summary>
    public required string Words { get; init; }
}
