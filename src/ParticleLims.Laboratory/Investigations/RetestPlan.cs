using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Investigations;

/// <summary>The state of a retest plan.</summary>
public enum RetestPlanState
{
    Proposed,
    Approved,
    Withdrawn,
}

/// <summary>A retest plan as it is proposed.</summary>
/// <param name="Count">So many determinations, no more and no fewer, whatever they show.</param>
/// <param name="Portion">Which part of the same sample they are made on.</param>
/// <param name="Evaluation">How they will be judged, said beforehand.</param>
/// <param name="SamePersonReason">Why the technician of the first run may make them; null: somebody else does.</param>
public sealed record RetestDraft(int Count, string Portion, string Evaluation, string? SamePersonReason);

/// <summary>
/// Further determinations of the same sample: their number is fixed before the first and never changed by what they show. They stay beside the value that is investigated; nothing averages it away.
/// </summary>
public sealed class RetestPlan : IVersioned
{
    /// <summary>At most so many determinations in a plan.</summary>
    public const int Most = 7;

    public Guid Id { get; init; }
    public Guid InvestigationId { get; init; }
    public int Count { get; init; }
    public required string Portion { get; init; }
    public required string Evaluation { get; init; }

    /// <summary>Why the same technician may make them; null: somebody else does.</summary>
    public string? SamePersonReason { get; init; }
    public Guid ProposedById { get; init; }
    public required string ProposedByName { get; init; }
    public DateTimeOffset ProposedAt { get; init; }
    public RetestPlanState State { get; private set; } = RetestPlanState.Proposed;
    public string? DecidedByName { get; private set; }
    public DateTimeOffset? DecidedAt { get; private set; }

    /// <summary>Why it was withdrawn; null where it was not.</summary>
    public string? WithdrawnBecause { get; private set; }
    public long Version { get; set; }

    /// <summary>The quality manager approves it: from now on the number stands.</summary>
    internal void Approve(DeedScope scope) => Decide(scope, RetestPlanState.Approved);

    /// <summary>It is taken back before its approval.</summary>
    internal void Withdraw(DeedScope scope, string reason)
    {
        Decide(scope, RetestPlanState.Withdrawn);
        WithdrawnBecause = reason.Trim();
    }

    private void Decide(DeedScope scope, RetestPlanState state)
    {
        if (State != RetestPlanState.Proposed)
        {
            throw new RefusedException("retest-plan-state", State == RetestPlanState.Approved ? "The retest plan is approved: its number stands, whatever the retests show." : "The retest plan was withdrawn.");
        }

        (State, DecidedByName, DecidedAt) = (state, scope.Marked(scope.By.Name), scope.Now);
    }
}

/// <summary>Words for people.</summary>
public static class RetestPlanWords
{
    /// <summary>The state as people say it.</summary>
    public static string Words(this RetestPlanState state) => state switch
    {
        RetestPlanState.Proposed => "waiting for approval",
        RetestPlanState.Approved => "approved",
        RetestPlanState.Withdrawn => "withdrawn",
        _ => throw new ArgumentOutOfRangeException(nameof(state), state, "Not a state."),
    };
}
