namespace ParticleLims.Analysis.Distributions;

/// <summary>The size below which a share of the mass lies (ISO 9276-2: x with the index of the share; docs/science/percentiles.md).</summary>
public sealed record Percentile
{
    /// <summary>The share of the mass that is finer, in percent, between 0 and 100 %.</summary>
    public required decimal Percent { get; init; }

    /// <summary>The size in micrometres (µm); with another relation than equal, the finest or coarsest measured aperture.</summary>
    public required double Micrometres { get; init; }

    /// <summary>Whether the size is this, below it or above it.</summary>
    public required Relation Relation { get; init; }
}

/// <summary>How a reported number relates to the true characteristic.</summary>
public enum Relation
{
    /// <summary>It is the value: "=".</summary>
    Equal,

    /// <summary>The value lies below the number, outside the measured range: "&lt;".</summary>
    Below,

    /// <summary>The value lies above the number, outside the measured range: "&gt;".</summary>
    Above,
}
