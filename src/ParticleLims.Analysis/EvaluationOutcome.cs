using ParticleLims.Analysis.Findings;

namespace ParticleLims.Analysis;

/// <summary>What comes of a request: <see cref="Evaluated"/> or <see cref="Refused"/>, nothing else.</summary>
public abstract record EvaluationOutcome
{
    private protected EvaluationOutcome()
    {
    }
}

/// <summary>There is a result.</summary>
public sealed record Evaluated : EvaluationOutcome
{
    internal Evaluated(EvaluationResult result) => Result = result;

    /// <summary>The result.</summary>
    public EvaluationResult Result { get; }
}

/// <summary>There is no result, and here is why.</summary>
public sealed record Refused : EvaluationOutcome
{
    internal Refused(IReadOnlyList<Finding> findings) => Findings = findings;

    /// <summary>At least one finding, all of severity refusal, in the order they were found.</summary>
    public IReadOnlyList<Finding> Findings { get; }
}
