namespace ParticleLims.Analysis.Conformity.History;

/// <summary>A limit that a product's history is held against (docs/science/judging-history.md).</summary>
public sealed record StoredLimit
{
    /// <summary>A limit on a percentile, on what passes, on what is retained or on the span, by simple or by guarded acceptance.</summary>
    public required LimitInput Limit { get; init; }

    /// <summary>The expanded uncertainty U in the characteristic's unit (µm, % or none), the same for every distribution; has a meaning for guarded acceptance only.</summary>
    public double ExpandedUncertainty { get; init; }
}
