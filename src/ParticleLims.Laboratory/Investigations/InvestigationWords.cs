namespace ParticleLims.Laboratory.Investigations;

/// <summary>Words for people.</summary>
public static class InvestigationWords
{
    /// <summary>The state as people say it.</summary>
    public static string Words(this InvestigationState state) => state switch
    {
        InvestigationState.LaboratoryPhase => "open, laboratory phase",
        InvestigationState.FullPhase => "open, full phase",
        InvestigationState.Closed => "closed",
        _ => throw new ArgumentOutOfRangeException(nameof(state), state, "Not a state."),
    };

    /// <summary>Why it was opened.</summary>
    public static string Words(this InvestigationKind kind) => kind switch
    {
        InvestigationKind.OutOfSpecification => "out of specification",
        InvestigationKind.DeterminationsApart => "determinations too far apart",
        InvestigationKind.OutOfTrend => "out of trend",
        _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, "Not a kind."),
    };

    /// <summary>What it is of, within a sentence.</summary>
    internal static string Subject(this InvestigationKind kind) => kind == InvestigationKind.DeterminationsApart ? kind.Words() : $"a value {kind.Words()}";

    /// <summary>The conclusion as people say it.</summary>
    public static string Words(this InvestigationConclusion conclusion) => conclusion switch
    {
        InvestigationConclusion.Confirmed => "out of specification confirmed",
        InvestigationConclusion.LaboratoryCause => "cause found in the laboratory",
        InvestigationConclusion.Inconclusive => "inconclusive",
        InvestigationConclusion.TrendExplained => "explained",
        _ => throw new ArgumentOutOfRangeException(nameof(conclusion), conclusion, "Not a conclusion."),
    };

    /// <summary>The cause as people say it.</summary>
    public static string Words(this LaboratoryCauseKind cause) => cause switch
    {
        LaboratoryCauseKind.Weighing => "weighing or keying",
        LaboratoryCauseKind.Balance => "balance",
        LaboratoryCauseKind.TestSieve => "test sieve",
        LaboratoryCauseKind.SievingUnit => "sieving unit",
        LaboratoryCauseKind.MethodNotFollowed => "method not followed",
        LaboratoryCauseKind.Preparation => "preparation or storage of the sample",
        LaboratoryCauseKind.SampleNotRepresentative => "sample not representative",
        LaboratoryCauseKind.SampleMixedUp => "sample mixed up",
        LaboratoryCauseKind.Environment => "humidity or static",
        LaboratoryCauseKind.Other => "another cause",
        _ => throw new ArgumentOutOfRangeException(nameof(cause), cause, "Not a cause."),
    };
}
