namespace ParticleLims.Analysis.Distributions;

/// <summary>The width of the distribution, (D90 - D10) / D50, without a unit (ISO 9276-2:2014 notation; common practice; docs/science/span.md).</summary>
public sealed record Span
{
    /// <summary>The span, without unit; with the relation above, its lower bound.</summary>
    public required double Value { get; init; }

    /// <summary>Equal where all three sizes lie in the measured range, else above.</summary>
    public required Relation Relation { get; init; }
}
