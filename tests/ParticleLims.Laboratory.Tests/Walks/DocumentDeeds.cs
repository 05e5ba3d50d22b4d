using ParticleLims.Laboratory.Documents;
using ParticleLims.Laboratory.Methods;
using ParticleLims.Laboratory.Specifications;
using ParticleLims.Laboratory.Tests.Record;
using static ParticleLims.Laboratory.Tests.Walks.RunDeeds;

namespace ParticleLims.Laboratory.Tests.Walks;

/// <summary>What is done with the versions of the method (document 0) and of the specification (document 1).</summary>
internal static class DocumentDeeds
{
    private const Who Writers = Who.Reviewer | Who.QualityManager | Who.LaboratoryManager;
    private const Who Approvers = Who.QualityManager | Who.LaboratoryManager;

    public static IEnumerable<WalkDeed> All =>
    [
        new("revises document", Writers, SubjectKind.Document, "MethodKeeping.ReviseAsync/5", "SpecificationKeeping.ReviseAsync/5")
        {
            Weight = 2,
            Against = at => When(Of(at).Any(version => version.State == DocumentState.InApproval), at.Subject == 0 ? "method-in-approval" : "specification-in-approval"),
            Changes = at =>
            {
                foreach (var draft in Of(at).Where(version => version.State == DocumentState.Draft))
                {
                    draft.State = DocumentState.Superseded;
                }

                at.Model.Versions.Add(new ModelVersion { Document = at.Subject, Number = Of(at).Count() + 1, Author = at.Person });
            },
            Act = (hand, at) => at.Subject == 0
                ? hand.Get<MethodKeeping>().ReviseAsync(hand.Of(at), hand.Method.MethodId, hand.Method.Draft, null, default)
                : hand.Get<SpecificationKeeping>().ReviseAsync(hand.Of(at), hand.Method.SpecificationId, hand.Method.Limits, null, default),
        },
        new("hands over version", Writers, SubjectKind.Version, "DocumentApproval<Method>.HandOverAsync/4", "DocumentApproval<Specification>.HandOverAsync/4")
        {
            Weight = 4,
            Against = at => When(at.Version.State != DocumentState.Draft, "document-state"),
            Changes = at => at.Version.State = DocumentState.InApproval,
            Act = (hand, at) => at.Version.Document == 0
                ? hand.Get<DocumentApproval<Method, MethodVersion>>().HandOverAsync(hand.Of(at), hand.Version(at).Id, hand.Version(at).Version, default)
                : hand.Get<DocumentApproval<Specification, SpecificationVersion>>().HandOverAsync(hand.Of(at), hand.Version(at).Id, hand.Version(at).Version, default),
        },
        new("hands back version", Approvers, SubjectKind.Version, "DocumentApproval<Method>.HandBackAsync/5", "DocumentApproval<Specification>.HandBackAsync/5")
        {
            Weight = 2,
            Against = at => When(at.Version.State != DocumentState.InApproval, "document-state"),
            Changes = at => at.Version.State = DocumentState.Draft,
            Act = (hand, at) => at.Version.Document == 0
                ? hand.Get<DocumentApproval<Method, MethodVersion>>().HandBackAsync(hand.Of(at), hand.Version(at).Id, "The time is missing", hand.Version(at).Version, default)
                : hand.Get<DocumentApproval<Specification, SpecificationVersion>>().HandBackAsync(hand.Of(at), hand.Version(at).Id, "The rule is missing", hand.Version(at).Version, default),
        },
        new("approves version", Approvers, SubjectKind.Version, "DocumentApproval<Method>.ApproveAsync/6", "DocumentApproval<Specification>.ApproveAsync/6")
        {
            Weight = 5,
            Against = at => [.. When(at.Version.State != DocumentState.InApproval, "document-state"), .. When(at.IsOwn(at.Version.Author == at.Person), "own-work")],
            Changes = at =>
            {
                at.Model.InForce(at.Version.Document).State = DocumentState.Superseded;
                at.Version.State = DocumentState.InForce;
            },
            Act = async (hand, at) => await (at.Version.Document == 0
                ? hand.Get<DocumentApproval<Method, MethodVersion>>().ApproveAsync(hand.Of(at), hand.Version(at).Id, null, await hand.ProofAsync(at), hand.Version(at).Version, default)
                : hand.Get<DocumentApproval<Specification, SpecificationVersion>>().ApproveAsync(hand.Of(at), hand.Version(at).Id, null, await hand.ProofAsync(at), hand.Version(at).Version, default)),
        },
    ];

    private static IEnumerable<ModelVersion> Of(Moment at) => at.Model.Versions.Where(version => version.Document == at.Subject);
}
