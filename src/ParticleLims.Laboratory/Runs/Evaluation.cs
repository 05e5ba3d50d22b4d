namespace ParticleLims.Laboratory.Runs;

/// <summary>The numbers computed from a run, with every input and the engine's version, so that it can be repeated bit for bit. Written once.</summary>
public sealed class Evaluation
{
    public Guid Id { get; init; }
    public Guid RunId { get; init; }
    public required string EngineVersion { get; init; }

    /// <summary>Everything that went in, as canonical JSON.</summary>
    public required string Input { get; init; }

    /// <summary>Everything that came out, as canonical JSON.</summary>
    public required string Result { get; init; }

    /// <summary>SHA-256 of <see cref="Result"/>, hexadecimal.</summary>
    public required string ResultHash { get; init; }
    public DateTimeOffset At { get; init; }

    /// <summary>The points of the curve once more, in few bytes; null in evaluations from before they were kept.</summary>
    public byte[]? Curve { get; init; }
}
