using System.Globalization;
using ParticleLims.Laboratory.People;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Documents;

/// <summary>What was done with a version. An approved one is kept as in force from its day on; where it stands at an instant says <see cref="VersionStanding"/>.</summary>
public enum DocumentState
{
    Draft,
    InApproval,
    InForce,
    Superseded,
}

/// <summary>A method or a specification: a name under which versions follow each other.</summary>
public interface IControlledDocument
{
    Guid Id { get; }
    string Code { get; }
    string Title { get; }
}

/// <summary>One version of a controlled document. A draft can be changed by people who write documents; from approval on nothing changes but its state.</summary>
public abstract class ControlledVersion : IVersioned
{
    public Guid Id { get; init; }

    /// <summary>The method or specification that it is a version of.</summary>
    public Guid DocumentId { get; init; }

    /// <summary>1, 2, 3, … within the document.</summary>
    public int Number { get; init; }
    public DocumentState State { get; private set; } = DocumentState.Draft;
    public Guid AuthorId { get; init; }
    public required string AuthorName { get; init; }
    public DateTimeOffset WrittenAt { get; init; }

    /// <summary>What changed against the version before, in the author's words.</summary>
    public required string WhatChanged { get; init; }
    public Guid? ApprovedById { get; private set; }
    public string? ApprovedByName { get; private set; }

    /// <summary>From this instant on the version is in force, until a later one is.</summary>
    public DateTimeOffset? InForceFrom { get; private set; }
    public long Version { get; set; }

    /// <summary>Whether it is approved and its day has begun; what came with the program was always there. It is in force unless a later version has begun too.</summary>
    public bool HasBegunAt(DateTimeOffset instant) => State == DocumentState.InForce && (InForceFrom <= instant || ApprovedById is null);

    /// <summary>The version as people name it: "M-GC-45 version 2".</summary>
    public string LabelIn(IControlledDocument document)
    {
        ArgumentNullException.ThrowIfNull(document);
        return string.Create(CultureInfo.InvariantCulture, $"{document.Code} version {Number}");
    }

    /// <summary>A newer draft takes this one's place before it was ever in force.</summary>
    public void GiveWay(string label)
    {
        RequireState(DocumentState.Draft, label);
        State = DocumentState.Superseded;
    }

    /// <summary>The author hands the draft over for approval.</summary>
    public void HandOver(string label)
    {
        RequireState(DocumentState.Draft, label);
        State = DocumentState.InApproval;
    }

    /// <summary>The approver hands it back.</summary>
    public void HandBack(string label)
    {
        RequireState(DocumentState.InApproval, label);
        State = DocumentState.Draft;
    }

    /// <summary>Another person approves. At once, every earlier version is superseded; from a later day, those that then will never be in force again or at all.</summary>
    /// <param name="scope">The running deed.</param>
    /// <param name="onePersonLaboratory">Whether the author may approve.</param>
    /// <param name="from">From when on it is in force; not earlier than now.</param>
    /// <param name="approved">The approved versions of the document before it.</param>
    /// <param name="label">The version as people name it.</param>
    public void Approve(DeedScope scope, bool onePersonLaboratory, DateTimeOffset from, IReadOnlyList<ControlledVersion> approved, string label)
    {
        ArgumentNullException.ThrowIfNull(scope);
        RequireState(DocumentState.InApproval, label);
        SeparationOfDuties.Require(scope, onePersonLaboratory, AuthorId, $"wrote {label}");
        (State, ApprovedById, ApprovedByName, InForceFrom) = (DocumentState.InForce, scope.PersonId, scope.Marked(scope.By.Name), from);
        foreach (var over in approved.Where(earlier => from <= scope.Now || earlier.InForceFrom >= from || earlier.StandingAt(approved, scope.Now) == VersionStanding.Superseded).ToList())
        {
            over.State = DocumentState.Superseded;
        }
    }

    /// <summary>The version is part of the program: it is in force without anybody's approval, until a later one is.</summary>
    internal void ComeWithTheProgram(bool superseded) => (State, ApprovedByName, InForceFrom) = (superseded ? DocumentState.Superseded : DocumentState.InForce, AuthorName, WrittenAt);

    private void RequireState(DocumentState needed, string label)
    {
        if (State != needed)
        {
            throw new RefusedException("document-state", $"{label} is {State.Words()}, not {needed.Words()}.");
        }
    }
}

/// <summary>Document states in words.</summary>
public static class DocumentStateWords
{
    /// <summary>The state as people say it.</summary>
    public static string Words(this DocumentState state) => state switch
    {
        DocumentState.Draft => "a draft",
        DocumentState.InApproval => "in approval",
        DocumentState.InForce => "in force",
        DocumentState.Superseded => "superseded",
        _ => throw new ArgumentOutOfRangeException(nameof(state), state, "Not a state."),
    };
}
