using System.Collections.Immutable;

namespace ParticleLims.Analysis.Statistics.Outliers;

/// <summary>What an outlier test found. It says how strange a value is, never that it may be left out: that needs a cause.</summary>
public sealed record OutlierResult
{
    /// <summary>The test's quotient, without unit.</summary>
    public required double Statistic { get; init; }

    /// <summary>What the quotient of clean normal values passes with the probability alpha only, without unit.</summary>
    public required double Critical { get; init; }

    /// <summary>The probability of finding an outlier among clean values, between 0 and 1.</summary>
    public required double Alpha { get; init; }

    /// <summary>The values looked at, as places in the list, from zero.</summary>
    public required ImmutableArray<int> Suspects { get; init; }

    /// <summary>Whether the quotient passes the critical value.</summary>
    public required bool IsOutlier { get; init; }
}
