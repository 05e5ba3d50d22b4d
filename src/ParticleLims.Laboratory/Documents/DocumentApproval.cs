using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Settings;

namespace ParticleLims.Laboratory.Documents;

/// <summary>The way of a draft into force: handed over by whoever writes, approved by another person's signature or handed back.</summary>
public sealed class DocumentApproval<TDocument, TVersion>(WritePath writing)
    where TDocument : class, IControlledDocument
    where TVersion : ControlledVersion
{
    /// <summary>So many years ahead a version may be approved for: a slip of the year would leave an old version in force unnoticed (common practice, no source).</summary>
    public const int MostYearsAhead = 2;

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

    /// <summary>Approves by signature; the version is in force from the beginning of a day, and the one before until then.</summary>
    /// <param name="actor">Who approves.</param>
    /// <param name="versionId">The version in approval.</param>
    /// <param name="inForceOn">The laboratory's day on which it comes into force, at most <see cref="MostYearsAhead"/> years ahead; null or today for at once.</param>
    /// <param name="proof">The secret given again.</param>
    /// <param name="version">The row's version that was shown.</param>
    /// <param name="cancellation">Ends the deed.</param>
    public Task<bool> ApproveAsync(Actor actor, Guid versionId, DateOnly? inForceOn, SecretProof proof, long version, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(ApproveDeed, actor), async (scope, token) =>
        {
            var (document, draft) = await FindAsync(scope, versionId, version, token);
            var approved = await scope.Data.Set<TVersion>().Where(one => one.DocumentId == document.Id && one.State == DocumentState.InForce).ToListAsync(token);
            var settings = await SettingsKeeping.OfAsync(scope.Data, token);
            draft.Approve(scope, settings.OnePersonLaboratory, From(scope, settings, inForceOn), approved, draft.LabelIn(document));
            scope.Sign(proof, SignedDocument<TDocument, TVersion>.Approved, (Kind, document.Id), SignedDocument<TDocument, TVersion>.ContentOf(document, draft));
            return true;
        }, cancellation);

    private static DateTimeOffset From(DeedScope scope, LaboratorySettings settings, DateOnly? day)
    {
        var today = settings.LocalDay(scope.Now);
        return day is not { } on || on == today ? scope.Now
            : on > today && on <= today.AddYears(MostYearsAhead) ? settings.StartOf(on)
            : throw new RefusedException("in-force-on", $"A version comes into force today or on a later day, at most {MostYearsAhead} years ahead. Read the day again, or leave it empty for at once.", "inForceOn");
    }

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
