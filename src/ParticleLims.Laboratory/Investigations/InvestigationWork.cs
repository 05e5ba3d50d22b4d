using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Lots;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Runs;

namespace ParticleLims.Laboratory.Investigations;

/// <summary>Investigations: opened by a value, gone through point by point, concluded by the quality manager's signature.</summary>
public sealed class InvestigationWork(WritePath writing, ReadPath reading, ILotCertificates certificates)
{
    private static readonly DeedKind NoteDeed = new("investigations.note", "Noted in an investigation", Permission.Investigate);
    private static readonly DeedKind AnswerDeed = new("investigations.answer", "Point of the laboratory phase answered", Permission.Investigate);
    private static readonly DeedKind FullDeed = new("investigations.full-phase", "Full phase of an investigation opened", Permission.Investigate, ReasonRequired: true);
    private static readonly DeedKind LotDeed = new("investigations.associate-lot", "Lot named in an investigation", Permission.Investigate);
    private static readonly DeedKind NoLotsDeed = new("investigations.no-other-lots", "No other lots touched", Permission.Investigate);
    private static readonly DeedKind ToldDeed = new("investigations.customers-told", "Customers told of an investigation", Permission.ConcludeInvestigations);
    private static readonly DeedKind ExplainDeed = new("investigations.explain-trend", "Value out of trend explained", Permission.Investigate);
    private static readonly DeedKind ConcludeDeed = new("investigations.conclude", "Investigation concluded", Permission.ConcludeInvestigations, ReasonRequired: true);

    /// <summary>Adds what was looked at and found.</summary>
    public Task<bool> NoteAsync(Actor actor, Guid id, string words, string? key, CancellationToken cancellation) =>
        ChangeAsync(new Deed(NoteDeed, actor, key) { Asked = new { id, words } }, id, null, (scope, investigation) =>
        {
            investigation.RequireOpen();
            if (string.IsNullOrWhiteSpace(words))
            {
                throw new RefusedException("note-empty", "Write what was looked at and what was found.", "words");
            }

            scope.Data.Add(new InvestigationNote { Id = scope.NewId(), InvestigationId = investigation.Id, At = scope.Now, PersonName = scope.By.Name, Words = words.Trim() });
            Touch(scope, investigation);
        }, cancellation);

    /// <summary>Answers a point of the laboratory phase with its evidence; a later answer counts before an earlier one.</summary>
    public Task<bool> AnswerAsync(Actor actor, Guid id, PhasePoint point, PointFinding finding, string words, string? key, CancellationToken cancellation) =>
        ChangeAsync(new Deed(AnswerDeed, actor, key) { Asked = new { id, point, finding, words } }, id, null, (scope, investigation) =>
        {
            investigation.RequireOutOfSpecification();
            if (words.Trim().Length is < 5 or > 2_000)
            {
                throw new RefusedException("answer-words", "Say what was looked at and what it showed (5 to 2 000 letters): an auditor reads nothing else.", "words");
            }

            scope.Data.Add(new PointAnswer { Id = scope.NewId(), InvestigationId = investigation.Id, Point = point, Finding = finding, Words = words.Trim(), At = scope.Now, PersonName = scope.By.Name });
            Touch(scope, investigation);
        }, cancellation);

    /// <summary>Goes on to the full phase, once every point of the laboratory phase is answered.</summary>
    public Task<bool> GoFullAsync(Actor actor, Guid id, string reason, long version, CancellationToken cancellation) =>
        ChangeAsync(new Deed(FullDeed, actor, Reason: reason), id, version, (_, investigation) => investigation.GoFull(), cancellation);

    /// <summary>Names another lot that may be touched, and what was found of it. Its certificates in force are suspended while the investigation is open.</summary>
    public Task<bool> AssociateAsync(Actor actor, Guid id, string lotNumber, string words, string? key, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(LotDeed, actor, key) { Asked = new { id, lotNumber, words } }, async (scope, token) =>
        {
            var investigation = await FindAsync(scope, id, null, token);
            investigation.RequireOutOfSpecification();
            var search = LotReception.SearchForm(lotNumber);
            var lot = await scope.Data.Lots.FirstOrDefaultAsync(one => one.SearchNumber == search, token) ?? throw new RefusedException("lot-unknown", $"There is no lot {lotNumber.Trim()}. Check its number.", "lotNumber");
            if (lot.Id == investigation.LotId || investigation.AssociatedLots.Exists(one => one.LotId == lot.Id))
            {
                throw new RefusedException("lot-named", lot.Id == investigation.LotId ? "This is the lot that is investigated." : $"Lot {lot.Number} is named already.", "lotNumber");
            }

            if (words.Trim().Length is < 5 or > 2_000)
            {
                throw new RefusedException("lot-words", "Say why the lot may be touched, and what was found (5 to 2 000 letters).", "words");
            }

            scope.Data.Add(new AssociatedLot { Id = scope.NewId(), InvestigationId = investigation.Id, LotId = lot.Id, LotNumber = lot.Number, Words = words.Trim(), At = scope.Now, PersonName = scope.By.Name });
            Touch(scope, investigation);
            await certificates.HoldAsync(scope, new HoldingCase(HoldingCaseKind.Investigation, investigation.Id, investigation.Number), lot.Id, null, token);
            return true;
        }, cancellation);

    /// <summary>Says that no other lot can be touched, and why.</summary>
    public Task<bool> NoOtherLotsAsync(Actor actor, Guid id, string why, long version, CancellationToken cancellation) =>
        ChangeAsync(new Deed(NoLotsDeed, actor), id, version, (_, investigation) => investigation.SayNoOtherLots(why), cancellation);

    /// <summary>Says who of the customers was told what, where a certificate of the lot had been issued.</summary>
    public Task<bool> CustomersToldAsync(Actor actor, Guid id, string words, long version, CancellationToken cancellation) =>
        ChangeAsync(new Deed(ToldDeed, actor), id, version, (_, investigation) => investigation.SayCustomersTold(words), cancellation);

    /// <summary>Explains a value out of trend; nobody explains their own run.</summary>
    public Task<bool> ExplainAsync(Actor actor, Guid id, string words, long version, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(ExplainDeed, actor), async (scope, token) =>
        {
            var investigation = await FindAsync(scope, id, version, token);
            await InvestigationDuties.RequireOtherThanAnalystAsync(scope, investigation, token);
            investigation.Explain(scope, words);
            await certificates.EndHoldAsync(scope, investigation.Id, null, lifts: true, investigation.Conclusion!.Value.Words(), token);
            return true;
        }, cancellation);

    /// <summary>
    /// Concludes by signature, never somebody who took part in the runs. When a laboratory cause was found the lot awaits results again, unless
    /// the quality manager holds it too, and the certificates that the investigation suspends count again; else it stays on hold for the decision, and they stay suspended.
    /// </summary>
    public Task<bool> ConcludeAsync(Actor actor, Guid id, InvestigationConclusion conclusion, LaboratoryCauseKind? cause, string reason, SecretProof proof, long version, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(ConcludeDeed, actor, Reason: reason), async (scope, token) =>
        {
            var investigation = await FindAsync(scope, id, version, token);
            await InvestigationDuties.RequireOtherThanAnalystAsync(scope, investigation, token);
            await RequireRetestedAsync(scope, investigation, token);
            await RequireCustomersToldAsync(scope, investigation, token);
            investigation.Conclude(scope, conclusion, cause, reason);
            await certificates.EndHoldAsync(scope, investigation.Id, null, conclusion == InvestigationConclusion.LaboratoryCause, conclusion.Words(), token);
            if (conclusion == InvestigationConclusion.LaboratoryCause)
            {
                await EndHoldAsync(scope, investigation, token);
            }

            scope.Sign(proof, SignedConclusion.Concluded, (nameof(Investigation), investigation.Id), SignedConclusion.ContentOf(investigation));
            return true;
        }, cancellation);

    /// <summary>All investigations of a lot, or all there are, newest first.</summary>
    public Task<List<Investigation>> AllAsync(Actor actor, Guid? lotId, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.SeeLaboratory, (data, _, token) => data.Investigations.Include(investigation => investigation.Notes.OrderBy(note => note.At))
            .Where(investigation => lotId == null || investigation.LotId == lotId).OrderByDescending(investigation => investigation.OpenedAt).Take(500).ToListAsync(token), cancellation);

    /// <summary>One investigation with everything written in it; null when there is none.</summary>
    public Task<Investigation?> FindAsync(Actor actor, Guid id, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.SeeLaboratory, (data, _, token) => data.Investigations.Whole().FirstOrDefaultAsync(investigation => investigation.Id == id, token), cancellation);

    /// <summary>An investigation within a deed, with everything written in it.</summary>
    internal static async Task<Investigation> FindAsync(DeedScope scope, Guid id, long? version, CancellationToken cancellation)
    {
        var investigation = await scope.Data.Investigations.Whole().FirstOrDefaultAsync(one => one.Id == id, cancellation)
            ?? throw new RefusedException("not-found", "There is no such investigation.");
        scope.About("Investigation", investigation.Id, $"{investigation.Number} of lot {investigation.LotNumber}");
        if (version is { } expected)
        {
            DeedScope.RequireVersion(investigation, expected, investigation.Number);
        }

        return investigation;
    }

    /// <summary>Whatever is written in an investigation makes another version of it: who concludes it signs what the page showed, and nothing that came in meanwhile.</summary>
    internal static void Touch(DeedScope scope, Investigation investigation)
    {
        var entry = scope.Data.Entry(investigation);
        entry.State = entry.State == EntityState.Unchanged ? EntityState.Modified : entry.State;
    }

    private Task<bool> ChangeAsync(Deed deed, Guid id, long? version, Action<DeedScope, Investigation> change, CancellationToken cancellation) =>
        writing.CarryOutAsync(deed, async (scope, token) =>
        {
            change(scope, await FindAsync(scope, id, version, token));
            return true;
        }, cancellation);

    private static async Task RequireRetestedAsync(DeedScope scope, Investigation investigation, CancellationToken cancellation)
    {
        if (investigation.Retests is not { } plan)
        {
            return;
        }

        var open = await scope.Data.Runs.Where(run => run.RetestPlanId == plan.Id && run.State != RunState.Accepted && run.State != RunState.Abandoned).OrderBy(run => run.Number).Select(run => run.Number).ToListAsync(cancellation);
        if (open.Count > 0)
        {
            throw new RefusedException("retests-open", $"The retest plan is not carried out: {string.Join(", ", open)} {(open.Count == 1 ? "is" : "are")} not accepted yet. All of them count, whatever the first ones show.");
        }
    }

    private async Task RequireCustomersToldAsync(DeedScope scope, Investigation investigation, CancellationToken cancellation)
    {
        var issued = await certificates.NumbersAsync(scope.Data, investigation.LotId, cancellation);
        if (issued.Count > 0 && investigation.CustomersTold is null)
        {
            throw new RefusedException("customers-told", $"Of lot {investigation.LotNumber} there is a certificate already ({string.Join(", ", issued)}). Say who was told what, and when, or why nobody has to be told.", "customersTold");
        }
    }

    private static async Task EndHoldAsync(DeedScope scope, Investigation investigation, CancellationToken cancellation)
    {
        var heldBesides = await scope.Data.Signatures.AnyAsync(one => one.SubjectId == investigation.LotId && (one.Meaning == Lot.HeldMeaning || one.Meaning.StartsWith(Lot.ReopenedMeaning)), cancellation)
            || await scope.Data.Investigations.AnyAsync(other => other.LotId == investigation.LotId && other.Id != investigation.Id && other.Kind != InvestigationKind.OutOfTrend && other.Conclusion != InvestigationConclusion.LaboratoryCause, cancellation);
        if (!heldBesides)
        {
            (await scope.FindAsync<Lot>(investigation.LotId, "lot", cancellation)).EndHold();
        }
    }
}
