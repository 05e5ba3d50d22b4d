using System.Collections.Immutable;

namespace ParticleLims.Analysis.Sieves;

/// <summary>What an inspection says about a sieve.</summary>
public sealed record ApertureVerdict
{
    /// <summary>Whether every point that the edition limits was determined and is kept; null if none is broken but one is missing.</summary>
    public required bool? Conforms { get; init; }

    /// <summary>The edition it was judged by.</summary>
    public required string Edition { get; init; }

    /// <summary>Each point in a sentence.</summary>
    public required ImmutableArray<AperturePoint> Points { get; init; }

    /// <summary>What was measured and is not judged, because the edition's table has no figures for it: a sentence each.</summary>
    public ImmutableArray<string> Unjudged { get; init; } = [];
}
