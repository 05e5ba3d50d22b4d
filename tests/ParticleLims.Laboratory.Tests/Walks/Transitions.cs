namespace ParticleLims.Laboratory.Tests.Walks;

/// <summary>Every way in which a state may change, and by which deed: the table of the states, written out by hand.</summary>
internal static class Transitions
{
    private static readonly (string Thing, string From, string To, string Deeds)[] Rows =
    [
        ("lot", "new", "AwaitingResults", "books in a lot beside; has reworked lot"),
        ("lot", "AwaitingResults", "AwaitingDisposition", "accepts run; signs the invalidation of run"),
        ("lot", "AwaitingResults", "OnHold", "submits run; abandons run; holds lot"),
        ("lot", "AwaitingResults", "Rejected", "rejects lot"),
        ("lot", "AwaitingDisposition", "AwaitingResults", "books in a sample of lot; signs the invalidation of run; signs under the invalidation of run"),
        ("lot", "AwaitingDisposition", "OnHold", "holds lot"),
        ("lot", "AwaitingDisposition", "Released", "releases lot"),
        ("lot", "AwaitingDisposition", "Rejected", "rejects lot"),
        ("lot", "AwaitingDisposition", "ReleasedByConcession", "concedes lot"),
        ("lot", "OnHold", "AwaitingResults", "concludes case"),
        ("lot", "OnHold", "Released", "releases lot"),
        ("lot", "OnHold", "Rejected", "rejects lot"),
        ("lot", "OnHold", "ReleasedByConcession", "concedes lot"),
        ("lot", "Released", "OnHold", "opens again lot"),
        ("lot", "Rejected", "OnHold", "opens again lot"),
        ("lot", "ReleasedByConcession", "OnHold", "opens again lot"),
        ("run", "new", "Planned", "books in a sample of lot; abandons run; signs the invalidation of run; signs under the invalidation of run; approves the retests of case"),
        ("run", "Planned", "InProgress", "starts run"),
        ("run", "InProgress", "Submitted", "submits run"),
        ("run", "Returned", "Submitted", "submits run"),
        ("run", "Submitted", "Accepted", "accepts run"),
        ("run", "Submitted", "Returned", "returns run"),
        ("run", "Submitted", "Invalidated", "signs the invalidation of run; signs under the invalidation of run"),
        ("run", "Accepted", "Invalidated", "signs the invalidation of run; signs under the invalidation of run"),
        ("run", "Planned", "Abandoned", "abandons run"),
        ("run", "InProgress", "Abandoned", "abandons run"),
        ("run", "Returned", "Abandoned", "abandons run"),
        ("case", "new", "LaboratoryPhase", "submits run"),
        ("case", "new", "LaboratoryPhase", "abandons run"),
        ("case", "LaboratoryPhase", "FullPhase", "opens the full phase of case"),
        ("case", "LaboratoryPhase", "Closed", "concludes case"),
        ("case", "FullPhase", "Closed", "concludes case"),
        ("retest plan", "new", "Proposed", "proposes retests in case"),
        ("retest plan", "Proposed", "Approved", "approves the retests of case"),
        ("retest plan", "Proposed", "Withdrawn", "withdraws the retests of case"),
        ("version", "new", "Draft", "revises document"),
        ("version", "Draft", "InApproval", "hands over version"),
        ("version", "InApproval", "Draft", "hands back version"),
        ("version", "InApproval", "InForce", "approves version"),
        ("version", "InForce", "Superseded", "approves version"),
        ("version", "Draft", "Superseded", "revises document"),
    ];

    public static IReadOnlyList<string> All { get; } = [.. from row in Rows from deed in row.Deeds.Split("; ") select $"{row.Thing} {row.From} -> {row.To}: {deed}"];
}
