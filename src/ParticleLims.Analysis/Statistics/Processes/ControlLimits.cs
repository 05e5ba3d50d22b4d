namespace ParticleLims.Analysis.Statistics.Processes;

/// <summary>The middle of a control chart and its limits.</summary>
public sealed record ControlLimits
{
    /// <summary>The lower limit, in the values' unit.</summary>
    public required double Lower { get; init; }

    /// <summary>The middle, in the values' unit.</summary>
    public required double Centre { get; init; }

    /// <summary>The upper limit, in the values' unit.</summary>
    public required double Upper { get; init; }

    /// <summary>Whether the value lies outside the limits; on a limit it does not.</summary>
    public bool IsOutside(double value) => value < Lower || value > Upper;
}
