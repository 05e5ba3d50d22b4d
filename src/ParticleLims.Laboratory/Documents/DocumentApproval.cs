using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Settings;

namespace ParticleLims.Laboratory.Documents;

/// <summary>The way of a draft into force: handed over by whoever writes, approved by another person's signature or handed back.</summary>
public sealed class DocumentApproval<TDocument, TVersion>(WritePath writing)
    where TDocument : class, IControlledDocument
    where TVersion : ControlledVersion
{
    private static readonly string Kind = typeof(TDocument).Name;
    private static readonly DeedKind HandOverDeed = new("documents.hand-over", "Draft handed over for approval", Permission.WriteDocuments);
    private static readonly DeedKind HandBackDeed = new("documents.hand-back", "Draft handed back to its author", Permission.ApproveDocuments, ReasonRequired: true);
    private static readonly DeedKind ApproveDeed = new("documents.approve", "Version approved", Permission.ApproveDocuments);

    /// <summary>Hands a draft over for approval.</summary>
    public Task<bool> HandOverAsync(Actor actor, Guid versionId, long version, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(HandOverDeed, actor), async (scope, token) =>
        {
            var (document, draft) = await FindAsync(scope, versionId, version, token);
            draft.HandOver(draft.LabelIn(document));
            return true;
        }, cancellation);

    /// <summary>Hands it back to the author with a reason.</summary>
    public Task<bool> HandBackAsync(Actor actor, Guid versionId, string reason, long version, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(HandBackDeed, actor, Reason: reason), async (scope, token) =>
        {
            var (document, draft) = await FindAsync(scope, versionId, version, token);
            draft.HandBack(draft.LabelIn(document));
            return true;
        }, cancellation);

    /// <summary>Approves by signature; the version is in force at once and the one before is superseded.</summary>
    public Task<bool> ApproveAsync(Actor actor, Guid versionId, SecretProof proof, long version, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(ApproveDeed, actor), async (scope, token) =>
        {
            var (document, draft) = await FindAsync(scope, versionId, version, token);
            var inForce = await scope.Data.Set<TVersion>().FirstOrDefaultAsync(one => one.DocumentId == document.Id && one.State == DocumentState.InForce, token);
            var settings = await SettingsKeeping.OfAsync(scope.Data, token);
            draft.Approve(scope, settings.OnePersonLaboratory, inForce, draft.LabelIn(document));
            scope.Sign(proof, SignedDocument<TDocument, TVersion>.Approved, (Kind, document.Id), SignedDocument<TDocument, TVersion>.ContentOf(document, draft));
            return true;
        }, cancellation);

    private static async Task<(TDocument Document, TVersion Version)> FindAsync(DeedScope scope, Guid versionId, long version, CancellationToken cancellation)
    {
        var draft = await scope.FindAsync<TVersion>(versionId, "version", cancellation);
        foreach (var part in scope.Data.Entry(draft).Collections)
        {
            await part.LoadAsync(cancellation);
        }

        var document = await scope.FindAsync<TDocument>(draft.DocumentId, "document", cancellation);
        DeedScope.RequireVersion(draft, version, draft.LabelIn(document));
        scope.About(Kind, document.Id, draft.LabelIn(document));
        return (document, draft);
    }
}
