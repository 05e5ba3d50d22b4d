using ParticleLims.Analysis.Quantities;

namespace ParticleLims.Analysis.Weighings;

/// <summary>The receiver below a nested stack.</summary>
public sealed record ReceiverInput
{
    /// <summary>The empty receiver.</summary>
    public required Mass Empty { get; init; }

    /// <summary>The receiver with what passed the finest sieve.</summary>
    public required Mass After { get; init; }
}
