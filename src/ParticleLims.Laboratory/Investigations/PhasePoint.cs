namespace ParticleLims.Laboratory.Investigations;

/// <summary>What is looked at in the laboratory before anything else is done. The order is the order of the work; the first is answered before anybody tips a sieve out.</summary>
public enum PhasePoint
{
    /// <summary>Test portion, fractions, stack and receiver: kept as they were?</summary>
    Retained,
    /// <summary>What the technician saw and did.</summary>
    Technician,
    /// <summary>Whether the method was followed.</summary>
    Method,
    /// <summary>The weighings, those that were taken again and those keyed by hand.</summary>
    Weighings,
    /// <summary>The evaluation.</summary>
    Evaluation,
    /// <summary>The balance on that day.</summary>
    Balance,
    /// <summary>The test sieves: damage, blinding, tares.</summary>
    Sieves,
    /// <summary>Sampling, division, and what happened to the sample on its way.</summary>
    Division,
    /// <summary>Sieving time, pressure or amplitude, end point.</summary>
    Sieving,
    /// <summary>Humidity, temperature, static charge.</summary>
    Room,
    /// <summary>What the product did before.</summary>
    History,
}

/// <summary>What was found at a point.</summary>
public enum PointFinding
{
    /// <summary>Looked at, nothing found.</summary>
    InOrder,
    /// <summary>Something was found.</summary>
    Found,
    /// <summary>Does not apply here, and why.</summary>
    DoesNotApply,
}

/// <summary>An answer to a point of the laboratory phase, written once; a later answer counts before an earlier one, and both stay.</summary>
public sealed class PointAnswer
{
    public Guid Id { get; init; }
    public Guid InvestigationId { get; init; }
    public PhasePoint Point { get; init; }
    public PointFinding Finding { get; init; }

    /// <summary>The evidence, in words: which file, which weighing, which sieve.</summary>
    public required string Words { get; init; }
    public DateTimeOffset At { get; init; }
    public required string PersonName { get; init; }
}

/// <summary>Points and answers in words.</summary>
public static class PhasePoints
{
    /// <summary>All points in the order of the work.</summary>
    public static IReadOnlyList<PhasePoint> All { get; } = Enum.GetValues<PhasePoint>();

    /// <summary>The point as people say it.</summary>
    public static string Words(this PhasePoint point) => point switch
    {
        PhasePoint.Retained => "what was kept",
        PhasePoint.Technician => "talk with the technician",
        PhasePoint.Method => "method followed",
        PhasePoint.Weighings => "weighings",
        PhasePoint.Evaluation => "evaluation",
        PhasePoint.Balance => "balance",
        PhasePoint.Sieves => "test sieves",
        PhasePoint.Division => "sampling and division",
        PhasePoint.Sieving => "sieving",
        PhasePoint.Room => "humidity and static",
        PhasePoint.History => "history",
        _ => throw new ArgumentOutOfRangeException(nameof(point), point, "Not a point."),
    };

    /// <summary>What is asked.</summary>
    public static string Question(this PhasePoint point) => point switch
    {
        PhasePoint.Retained => "Are the rest of the test portion, the fractions, the sieves and the receiver still as they were? Where do they lie? Only if it is safe to keep them.",
        PhasePoint.Technician => "What did the technician see and do? Was anything unusual: a spill, a knock, a pause, a clump?",
        PhasePoint.Method => "Were the version of the method, the portion, the order of the sieves and the preparation as they should be?",
        PhasePoint.Weighings => "Are the weighings plausible, among them those taken again, keyed by hand or confirmed by a second person?",
        PhasePoint.Evaluation => "Does the evaluation, computed again, give the same numbers? Are the limits those of the specification?",
        PhasePoint.Balance => "Was the balance checked on that day, level, warmed up, within its capacity and above its minimum weight?",
        PhasePoint.Sieves => "Is any sieve torn, slack, dented, blinded or loose in its frame? Do the empty masses fit its history, and its last reference check?",
        PhasePoint.Division => "Was the sample taken and divided as prescribed? Was its container closed and dry? Is it the right sample?",
        PhasePoint.Sieving => "Were time, pressure or amplitude and the end point as the method asks?",
        PhasePoint.Room => "Could humidity, temperature or static charge have made the powder cling or cake?",
        PhasePoint.History => "What did the last lots of this product show? Is it a drift, a step, or this lot alone?",
        _ => throw new ArgumentOutOfRangeException(nameof(point), point, "Not a point."),
    };

    /// <summary>The answer as people say it.</summary>
    public static string Words(this PointFinding finding) => finding switch
    {
        PointFinding.InOrder => "in order",
        PointFinding.Found => "something found",
        PointFinding.DoesNotApply => "does not apply",
        _ => throw new ArgumentOutOfRangeException(nameof(finding), finding, "Not a finding."),
    };
}
