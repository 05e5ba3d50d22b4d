using ParticleLims.Analysis.Quantities;

namespace ParticleLims.Analysis.Sieves.Tares;

/// <summary>A change of an empty sieve's mass that its balance does not explain.</summary>
public sealed record TareFinding
{
    /// <summary>The weighing that shows it, from zero.</summary>
    public required int Index { get; init; }

    /// <summary>What it looks like.</summary>
    public required TareChange Change { get; init; }

    /// <summary>How much was gained; negative for a loss.</summary>
    public required Mass Amount { get; init; }

    /// <summary>The same in a sentence.</summary>
    public required string Words { get; init; }
}
