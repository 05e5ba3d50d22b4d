using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Investigations;

/// <summary>The state of a hypothesis.</summary>
public enum HypothesisState
{
    Proposed,
    Approved,
    Judged,
    Withdrawn,
}

/// <summary>What the measurements said of a hypothesis.</summary>
public enum HypothesisOutcome
{
    /// <summary>They support the cause.</summary>
    Supported,
    /// <summary>They rule it out.</summary>
    RuledOut,
    /// <summary>They tell nothing.</summary>
    NothingTold,
}

/// <summary>
/// A supposed cause and the measurements that are to support it or to rule it out: written down and approved before the first of them. They are kept here alone: no result, no certificate and no chart ever
/// takes a value from them.
/// </summary>
public sealed class Hypothesis : IVersioned
{
    public Guid Id { get; init; }
    public Guid InvestigationId { get; init; }

    /// <summary>The supposed cause.</summary>
    public required string What { get; init; }

    /// <summary>What is measured, on what, and how.</summary>
    public required string How { get; init; }

    /// <summary>Which outcome supports it, and which rules it out, said beforehand.</summary>
    public required string Judging { get; init; }
    public Guid ProposedById { get; init; }
    public required string ProposedByName { get; init; }
    public DateTimeOffset ProposedAt { get; init; }
    public HypothesisState State { get; private set; } = HypothesisState.Proposed;
    public string? ApprovedByName { get; private set; }
    public DateTimeOffset? ApprovedAt { get; private set; }
    public HypothesisOutcome? Outcome { get; private set; }
    public string? OutcomeWords { get; private set; }
    public string? EndedByName { get; private set; }
    public DateTimeOffset? EndedAt { get; private set; }
    public List<HypothesisMeasurement> Measurements { get; } = [];
    public long Version { get; set; }

    /// <summary>The quality manager approves it before anything is measured.</summary>
    internal void Approve(DeedScope scope)
    {
        Require(HypothesisState.Proposed, "It is not waiting for approval.");
        (State, ApprovedByName, ApprovedAt) = (HypothesisState.Approved, scope.Marked(scope.By.Name), scope.Now);
    }

    /// <summary>Refuses a measurement before the approval and after the end.</summary>
    internal void RequireApproved() => Require(HypothesisState.Approved, "Measurements are written down between its approval and its judging.");

    /// <summary>Somebody says what the measurements told.</summary>
    internal void Judge(DeedScope scope, HypothesisOutcome outcome, string words)
    {
        RequireApproved();
        if (Measurements.Count == 0)
        {
            throw new RefusedException("hypothesis-unmeasured", "Nothing was measured for it yet. Write the measurements down, or withdraw it.");
        }

        (State, Outcome) = (HypothesisState.Judged, outcome);
        End(scope, words);
    }

    /// <summary>It is given up.</summary>
    internal void Withdraw(DeedScope scope, string reason)
    {
        if (State is not (HypothesisState.Proposed or HypothesisState.Approved))
        {
            throw new RefusedException("hypothesis-state", $"The hypothesis “{What}” is {State.Words()}.");
        }

        State = HypothesisState.Withdrawn;
        End(scope, reason);
    }

    private void End(DeedScope scope, string words) => (OutcomeWords, EndedByName, EndedAt) = (words.Trim(), scope.By.Name, scope.Now);

    private void Require(HypothesisState state, string why)
    {
        if (State != state)
        {
            throw new RefusedException("hypothesis-state", $"The hypothesis “{What}” is {State.Words()}. {why}");
        }
    }
}

/// <summary>A value that was measured for a hypothesis, written once.</summary>
public sealed class HypothesisMeasurement
{
    public Guid Id { get; init; }
    public Guid HypothesisId { get; init; }

    /// <summary>What was measured, with what: "passing 45 µm on sieve TS-GC-45-045, second half of the sample".</summary>
    public required string What { get; init; }

    /// <summary>In <see cref="Unit"/>.</summary>
    public decimal Value { get; init; }
    public required string Unit { get; init; }
    public DateTimeOffset At { get; init; }
    public required string PersonName { get; init; }
}

/// <summary>Words for people.</summary>
public static class HypothesisWords
{
    /// <summary>The state as people say it.</summary>
    public static string Words(this HypothesisState state) => state switch
    {
        HypothesisState.Proposed => "waiting for approval",
        HypothesisState.Approved => "approved",
        HypothesisState.Judged => "judged",
        HypothesisState.Withdrawn => "withdrawn",
        _ => throw new ArgumentOutOfRangeException(nameof(state), state, "Not a state."),
    };

    /// <summary>The outcome as people say it.</summary>
    public static string Words(this HypothesisOutcome outcome) => outcome switch
    {
        HypothesisOutcome.Supported => "supports the cause",
        HypothesisOutcome.RuledOut => "rules the cause out",
        HypothesisOutcome.NothingTold => "tells nothing",
        _ => throw new ArgumentOutOfRangeException(nameof(outcome), outcome, "Not an outcome."),
    };
}
