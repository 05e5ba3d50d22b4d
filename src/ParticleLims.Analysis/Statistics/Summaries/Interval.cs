namespace ParticleLims.Analysis.Statistics.Summaries;

/// <summary>A confidence interval.</summary>
public sealed record Interval
{
    /// <summary>The lower end, in the value's unit.</summary>
    public required double Low { get; init; }

    /// <summary>The upper end, in the value's unit.</summary>
    public required double High { get; init; }

    /// <summary>The probability with which such intervals hold the true value, between 0 and 1.</summary>
    public required double Confidence { get; init; }

    /// <summary>Whether the value lies within, the ends included.</summary>
    public bool Contains(double value) => value >= Low && value <= High;

    internal static Interval About(double middle, double half, double confidence) => new() { Low = middle - half, High = middle + half, Confidence = confidence };
}
