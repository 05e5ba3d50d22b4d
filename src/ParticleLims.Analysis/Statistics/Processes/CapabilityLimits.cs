namespace ParticleLims.Analysis.Statistics.Processes;

/// <summary>The limits that a process should keep; at least one.</summary>
public sealed record CapabilityLimits
{
    /// <summary>The lower limit, in the values' unit; null for none.</summary>
    public double? Lower { get; init; }

    /// <summary>The upper limit, in the values' unit; null for none.</summary>
    public double? Upper { get; init; }

    /// <summary>Whether the lower limit is nature's, as zero for a roundness: it then counts for the width, not for the distance.</summary>
    public bool IsLowerNatural { get; init; }

    /// <summary>Whether the upper limit is nature's, as 100 % for a recovery.</summary>
    public bool IsUpperNatural { get; init; }
}
