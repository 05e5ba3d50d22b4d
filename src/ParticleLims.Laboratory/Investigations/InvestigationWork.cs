using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Lots;
using ParticleLims.Laboratory.People;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Runs;
using ParticleLims.Laboratory.Settings;

namespace ParticleLims.Laboratory.Investigations;

/// <summary>Investigations: opened by a value, noted in, concluded by the quality manager's signature.</summary>
public sealed class InvestigationWork(WritePath writing, ReadPath reading)
{
    private static readonly DeedKind NoteDeed = new("investigations.note", "Noted in an investigation", Permission.Investigate);
    private static readonly DeedKind FullDeed = new("investigations.full-phase", "Full phase of an investigation opened", Permission.Investigate, ReasonRequired: true);
    private static readonly DeedKind ConcludeDeed = new("investigations.conclude", "Investigation concluded", Permission.ConcludeInvestigations, ReasonRequired: true);

    /// <summary>Adds what was looked at and found.</summary>
    public Task<bool> NoteAsync(Actor actor, Guid id, string words, string? key, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(NoteDeed, actor, key) { Asked = new { id, words } }, async (scope, token) =>
        {
            var investigation = await FindAsync(scope, id, token);
            investigation.RequireOpen();
            if (string.IsNullOrWhiteSpace(words))
            {
                throw new RefusedException("note-empty", "Write what was looked at and what was found.", "words");
            }

            scope.Data.Add(new InvestigationNote { Id = scope.NewId(), InvestigationId = investigation.Id, At = scope.Now, PersonName = scope.By.Name, Words = words.Trim() });
            return true;
        }, cancellation);

    /// <summary>Goes on to the full phase.</summary>
    public Task<bool> GoFullAsync(Actor actor, Guid id, string reason, long version, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(FullDeed, actor, Reason: reason), async (scope, token) =>
        {
            var investigation = await FindAsync(scope, id, token);
            DeedScope.RequireVersion(investigation, version, investigation.Number);
            investigation.GoFull();
            return true;
        }, cancellation);

    /// <summary>
    /// Concludes by signature, never somebody who took part in the runs. When a laboratory cause was found the lot awaits results again, unless
    /// the quality manager holds it too; else it stays on hold for the decision.
    /// </summary>
    public Task<bool> ConcludeAsync(Actor actor, Guid id, InvestigationConclusion conclusion, string reason, SecretProof proof, long version, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(ConcludeDeed, actor, Reason: reason), async (scope, token) =>
        {
            var investigation = await FindAsync(scope, id, token);
            DeedScope.RequireVersion(investigation, version, investigation.Number);
            await RequireSecondPersonAsync(scope, investigation, token);
            investigation.Conclude(scope, conclusion, reason);
            if (conclusion == InvestigationConclusion.LaboratoryCause)
            {
                await EndHoldAsync(scope, investigation, token);
            }

            scope.Sign(proof, "concluded", (nameof(Investigation), investigation.Id), SignedConclusion.ContentOf(investigation));
            return true;
        }, cancellation);

    /// <summary>All investigations of a lot, or all there are, newest first.</summary>
    public Task<List<Investigation>> AllAsync(Actor actor, Guid? lotId, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.SeeLaboratory, (data, _, token) => data.Investigations.Include(investigation => investigation.Notes.OrderBy(note => note.At))
            .Where(investigation => lotId == null || investigation.LotId == lotId).OrderByDescending(investigation => investigation.OpenedAt).Take(500).ToListAsync(token), cancellation);

    /// <summary>One investigation with its notes; null when there is none.</summary>
    public Task<Investigation?> FindAsync(Actor actor, Guid id, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.SeeLaboratory, (data, _, token) => data.Investigations.Include(investigation => investigation.Notes.OrderBy(note => note.At)).FirstOrDefaultAsync(investigation => investigation.Id == id, token), cancellation);

    private static async Task RequireSecondPersonAsync(DeedScope scope, Investigation investigation, CancellationToken cancellation)
    {
        var onePerson = (await SettingsKeeping.OfAsync(scope.Data, cancellation)).OnePersonLaboratory;
        var shown = await scope.FindAsync<Run>(investigation.RunId, "run", cancellation);
        var runs = await scope.Data.Runs.Where(run => run.SampleId == shown.SampleId).Select(run => run.Id).ToListAsync(cancellation);
        var tookPart = await SeparationOfDuties.DidAsync(scope, runs, RunsTables.DeedFamily, cancellation);
        SeparationOfDuties.Require(scope, onePerson, tookPart ? scope.PersonId : null, $"took part in the runs of sample {shown.SampleCode}");
    }

    private static async Task EndHoldAsync(DeedScope scope, Investigation investigation, CancellationToken cancellation)
    {
        var heldBesides = await scope.Data.Signatures.AnyAsync(one => one.SubjectId == investigation.LotId && one.Meaning == Lot.HeldMeaning, cancellation)
            || await scope.Data.Investigations.AnyAsync(other => other.LotId == investigation.LotId && other.Id != investigation.Id && other.Conclusion != InvestigationConclusion.LaboratoryCause, cancellation);
        if (!heldBesides)
        {
            (await scope.FindAsync<Lot>(investigation.LotId, "lot", cancellation)).EndHold();
        }
    }

    private static async Task<Investigation> FindAsync(DeedScope scope, Guid id, CancellationToken cancellation)
    {
        var investigation = await scope.Data.Investigations.Include(one => one.Notes).FirstOrDefaultAsync(one => one.Id == id, cancellation)
            ?? throw new RefusedException("not-found", "There is no such investigation.");
        scope.About("Investigation", investigation.Id, $"{investigation.Number} of lot {investigation.LotNumber}");
        return investigation;
    }
}
