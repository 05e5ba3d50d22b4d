namespace ParticleLims.Analysis.Statistics.Processes;

/// <summary>A cumulative sum beyond the interval of decision.</summary>
public sealed record CusumSignal
{
    /// <summary>The place of the value, from zero.</summary>
    public required int Index { get; init; }

    /// <summary>Whether the values have gone up.</summary>
    public required bool IsUpward { get; init; }

    /// <summary>The place, from zero, of the first value since the sum left zero: about here the shift began.</summary>
    public required int FirstIndex { get; init; }

    /// <summary>Where the process is now by this sum, target ± (K + C/N), in the values' unit.</summary>
    public required double EstimatedMean { get; init; }
}
