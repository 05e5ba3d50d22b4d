namespace ParticleLims.Analysis.Findings;

/// <summary>Something the engine noticed in a request or a run, in words for people and with a code for machines.</summary>
public sealed record Finding
{
    /// <summary>A stable code out of <see cref="FindingCodes"/>.</summary>
    public required string Code { get; init; }

    /// <summary>How much it weighs.</summary>
    public required FindingSeverity Severity { get; init; }

    /// <summary>One or two sentences in English, with numbers and units.</summary>
    public required string Message { get; init; }

    /// <summary>
    /// The member of the request it speaks of, in the REST interface's names and in the order of the request:
    /// <c>cuts[2].afterGrams</c>; null where it speaks of the whole.
    /// </summary>
    public string? Member { get; init; }
}
