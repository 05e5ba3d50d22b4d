using ParticleLims.Analysis.Conformity;
using ParticleLims.Analysis.Findings;

namespace ParticleLims.Analysis;

/// <summary>What the mean of several runs on one sample says to each limit.</summary>
public sealed record ReplicateVerdicts
{
    /// <summary>The engine's version.</summary>
    public required string Engine { get; init; }

    /// <summary>One verdict for each limit, in their order; the value is the mean.</summary>
    public required IReadOnlyList<LimitVerdict> Verdicts { get; init; }

    /// <summary>Findings, such as replicates too far apart, and refusals of limits that cannot be judged.</summary>
    public required IReadOnlyList<Finding> Findings { get; init; }
}
