using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Investigations;

/// <summary>Why an investigation was opened.</summary>
public enum InvestigationKind
{
    /// <summary>A value is out of specification: the lot is held, and the whole way is gone.</summary>
    OutOfSpecification,
    /// <summary>The determinations of one result lie further apart than was allowed beforehand, so there is no result: investigated in the same way, and counted for itself.</summary>
    DeterminationsApart,
    /// <summary>A value is within its limits but off what the product usually shows: the lighter case, answered in words before the lot is released.</summary>
    OutOfTrend,
}

/// <summary>The state of an investigation.</summary>
public enum InvestigationState
{
    LaboratoryPhase,
    FullPhase,
    Closed,
}

/// <summary>What an investigation found.</summary>
public enum InvestigationConclusion
{
    /// <summary>The value stands: the lot is out of specification.</summary>
    Confirmed,
    /// <summary>A documented cause in the laboratory was found: the run may be invalidated.</summary>
    LaboratoryCause,
    /// <summary>Neither; every result stays and the quality manager decides, on the side of caution.</summary>
    Inconclusive,
    /// <summary>The value off the trend was explained.</summary>
    TrendExplained,
}

/// <summary>Which cause in the laboratory was found; counted, so that one that is named too often shows.</summary>
public enum LaboratoryCauseKind
{
    Weighing,
    Balance,
    TestSieve,
    SievingUnit,
    MethodNotFollowed,
    Preparation,
    SampleNotRepresentative,
    SampleMixedUp,
    Environment,
    Other,
}

/// <summary>The record that an out-of-specification or out-of-trend value opens.</summary>
public sealed class Investigation : IVersioned
{
    public Guid Id { get; init; }

    /// <summary>For example <c>I-26-00003</c>.</summary>
    public required string Number { get; init; }
    public InvestigationKind Kind { get; init; }

    /// <summary>Whether the lot is held and the whole way is gone; else it is the lighter case.</summary>
    public bool IsFull => Kind != InvestigationKind.OutOfTrend;
    public Guid LotId { get; init; }
    public required string LotNumber { get; init; }

    /// <summary>The run that showed it.</summary>
    public Guid RunId { get; init; }
    public required string RunNumber { get; init; }

    /// <summary>What is out, in words with values and limits.</summary>
    public required string What { get; init; }
    public DateTimeOffset OpenedAt { get; init; }

    /// <summary>By when it should be closed, by the laboratory's own rule; null for those from before there was one.</summary>
    public DateOnly? DueOn { get; init; }
    public InvestigationState State { get; private set; } = InvestigationState.LaboratoryPhase;
    public InvestigationConclusion? Conclusion { get; private set; }

    /// <summary>With the conclusion that a cause was found in the laboratory: which one.</summary>
    public LaboratoryCauseKind? Cause { get; private set; }
    public string? ConclusionWords { get; private set; }
    public DateTimeOffset? ClosedAt { get; private set; }
    public string? ClosedByName { get; private set; }

    /// <summary>Why no other lot can be touched, in words; null while nobody said so.</summary>
    public string? NoOtherLots { get; private set; }

    /// <summary>Who of the customers was told what and when, where a certificate of the lot had been issued.</summary>
    public string? CustomersTold { get; private set; }
    public List<InvestigationNote> Notes { get; } = [];
    public List<PointAnswer> Answers { get; } = [];
    public List<Hypothesis> Hypotheses { get; } = [];
    public List<RetestPlan> RetestPlans { get; } = [];
    public List<AssociatedLot> AssociatedLots { get; } = [];
    public long Version { get; set; }

    /// <summary>The points of the laboratory phase that nobody has answered, in the order of the work.</summary>
    public IEnumerable<PhasePoint> Unanswered => PhasePoints.All.Where(point => AnswerTo(point) is null);

    /// <summary>The approved retest plan; null while there is none.</summary>
    public RetestPlan? Retests => RetestPlans.Find(plan => plan.State == RetestPlanState.Approved);

    /// <summary>The answer that counts; null while there is none.</summary>
    public PointAnswer? AnswerTo(PhasePoint point) => Answers.Where(answer => answer.Point == point).MaxBy(answer => answer.At);

    /// <summary>Whether it should have been closed by that day.</summary>
    public bool IsOverdue(DateOnly today) => State != InvestigationState.Closed && DueOn < today;

    /// <summary>No cause was found in the laboratory: production and other lots are looked at too.</summary>
    public void GoFull()
    {
        RequireOutOfSpecification();
        if (State == InvestigationState.FullPhase)
        {
            throw new RefusedException("full-phase", $"Investigation {Number} is in its full phase already.");
        }

        if (NotAnswered is { } refusal)
        {
            throw refusal;
        }

        State = InvestigationState.FullPhase;
    }

    /// <summary>Somebody says that no other lot can be touched, and why.</summary>
    public void SayNoOtherLots(string why)
    {
        RequireOutOfSpecification();
        NoOtherLots = RequireWords(why, "Say why no other lot can be touched (at least five letters).");
    }

    /// <summary>Somebody says who of the customers was told.</summary>
    public void SayCustomersTold(string words)
    {
        RequireOutOfSpecification();
        CustomersTold = RequireWords(words, "Say who was told what, and when (at least five letters).");
    }

    /// <summary>What stands in the way of that conclusion, in words; null where nothing does.</summary>
    public RefusedException? Against(InvestigationConclusion conclusion)
    {
        if ((NotAnswered ?? NotMeasured) is { } open)
        {
            return open;
        }

        if (conclusion == InvestigationConclusion.LaboratoryCause && PhasePoints.All.All(point => AnswerTo(point)!.Finding != PointFinding.Found) && Hypotheses.TrueForAll(one => one.Outcome != HypothesisOutcome.Supported))
        {
            return new RefusedException("cause-undocumented", "No point of the laboratory phase and no hypothesis measurement shows a cause. Answer the point where it was found, with its evidence, or conclude otherwise.");
        }

        if (conclusion != InvestigationConclusion.LaboratoryCause && State == InvestigationState.LaboratoryPhase)
        {
            return new RefusedException("full-phase-missing", "No cause was found in the laboratory. Open the full phase, note what production and related lots showed, then conclude.");
        }

        return State == InvestigationState.FullPhase && AssociatedLots.Count == 0 && NoOtherLots is null
            ? new RefusedException("associated-lots-missing", "Name the lots that may be touched too, or say why there are none.")
            : null;
    }

    /// <summary>The quality manager concludes.</summary>
    internal void Conclude(DeedScope scope, InvestigationConclusion conclusion, LaboratoryCauseKind? cause, string words)
    {
        RequireOutOfSpecification();
        if (conclusion == InvestigationConclusion.TrendExplained || conclusion == InvestigationConclusion.LaboratoryCause == cause is null)
        {
            throw new RefusedException("conclusion", "A cause in the laboratory is named, and only with that conclusion.", "cause");
        }

        if (Against(conclusion) is { } refusal)
        {
            throw refusal;
        }

        Close(scope, conclusion, words);
        Cause = cause;
    }

    /// <summary>Somebody explains a value off the trend.</summary>
    internal void Explain(DeedScope scope, string words)
    {
        RequireOpen();
        if (IsFull)
        {
            throw new RefusedException("out-of-specification", $"Investigation {Number} is of {Kind.Subject()}: the quality manager concludes it by signature.");
        }

        Close(scope, InvestigationConclusion.TrendExplained, RequireWords(words, "Say what explains the value, and what is done about it (at least five letters)."));
    }

    /// <summary>Refuses once it is closed.</summary>
    public void RequireOpen()
    {
        if (State == InvestigationState.Closed)
        {
            throw new RefusedException("investigation-closed", $"Investigation {Number} is closed.");
        }
    }

    /// <summary>Refuses what only an open investigation of a value out of specification, or of determinations too far apart, has.</summary>
    public void RequireOutOfSpecification()
    {
        RequireOpen();
        if (!IsFull)
        {
            throw new RefusedException("out-of-trend", $"Investigation {Number} is of a value out of trend: it is explained in words, and nothing is measured for it.");
        }
    }

    private static string RequireWords(string words, string otherwise) =>
        words.Trim() is { Length: >= 5 } said ? said : throw new RefusedException("words", otherwise, "words");

    private RefusedException? NotAnswered => Unanswered.Select(point => point.Words()).ToList() is { Count: > 0 } missing
        ? new RefusedException("points-unanswered", $"The laboratory phase is not complete. Still to be answered: {string.Join(", ", missing)}.")
        : null;

    private RefusedException? NotMeasured => Hypotheses.Find(one => one.State is HypothesisState.Proposed or HypothesisState.Approved) is { } waiting
        ? new RefusedException("hypothesis-open", $"The hypothesis “{waiting.What}” is neither judged nor withdrawn.")
        : RetestPlans.Exists(plan => plan.State == RetestPlanState.Proposed) ? new RefusedException("retest-plan-open", "A retest plan waits for its approval. Have it approved, or withdraw it.") : null;

    private void Close(DeedScope scope, InvestigationConclusion conclusion, string words) =>
        (State, Conclusion, ConclusionWords, ClosedAt, ClosedByName) = (InvestigationState.Closed, conclusion, words.Trim(), scope.Now, scope.Marked(scope.By.Name));
}

/// <summary>What somebody looked at and found.</summary>
public sealed class InvestigationNote
{
    public Guid Id { get; init; }
    public Guid InvestigationId { get; init; }
    public DateTimeOffset At { get; init; }
    public required string PersonName { get; init; }
    public required string Words { get; init; }
}

/// <summary>Another lot that the same cause may touch, named once.</summary>
public sealed class AssociatedLot
{
    public Guid Id { get; init; }
    public Guid InvestigationId { get; init; }
    public Guid LotId { get; init; }
    public required string LotNumber { get; init; }

    /// <summary>Why it may be touched, and what was found.</summary>
    public required string Words { get; init; }
    public DateTimeOffset At { get; init; }
    public required string PersonName { get; init; }
}
