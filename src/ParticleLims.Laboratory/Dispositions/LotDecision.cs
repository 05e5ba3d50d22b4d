using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Lots;
using ParticleLims.Laboratory.People;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Runs;
using ParticleLims.Laboratory.Settings;

namespace ParticleLims.Laboratory.Dispositions;

/// <summary>Ship it or not: the quality manager decides on a lot by signature over exactly what the page showed.</summary>
public sealed class LotDecision(WritePath writing, ReadPath reading)
{
    private static readonly DeedKind ReleaseDeed = new("dispositions.release", "Lot released", Permission.DecideLots);
    private static readonly DeedKind HoldDeed = new("dispositions.hold", "Lot put on hold", Permission.DecideLots, ReasonRequired: true);
    private static readonly DeedKind RejectDeed = new("dispositions.reject", "Lot rejected", Permission.DecideLots, ReasonRequired: true);
    private static readonly DeedKind ConcedeDeed = new("dispositions.concede", "Lot released by concession", Permission.DecideLots, ReasonRequired: true);
    private static readonly DeedKind ProposeDeed = new("dispositions.propose-concession", "Concession proposed", Permission.ProposeConcession, ReasonRequired: true);

    /// <summary>Everything that the decision rests on; null when there is no such lot.</summary>
    public Task<LotEvidence?> ReadAsync(Actor actor, Guid lotId, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.SeeLaboratory, async (data, _, token) =>
            await data.Lots.FirstOrDefaultAsync(lot => lot.Id == lotId, token) is { } lot ? await LotEvidence.OfAsync(data, lot, token) : null, cancellation);

    /// <summary>Releases the lot. Every blocker is named in the refusal.</summary>
    public Task<bool> ReleaseAsync(Actor actor, Guid lotId, SecretProof proof, string shownHash, CancellationToken cancellation) =>
        DecideAsync(new Deed(ReleaseDeed, actor), lotId, LotState.Released, "released", evidence => evidence.ReleaseBlockers, proof, shownHash, cancellation);

    /// <summary>Holds the lot with a reason.</summary>
    public Task<bool> HoldAsync(Actor actor, Guid lotId, string reason, SecretProof proof, string shownHash, CancellationToken cancellation) =>
        DecideAsync(new Deed(HoldDeed, actor, Reason: reason), lotId, LotState.OnHold, Lot.HeldMeaning, _ => [], proof, shownHash, cancellation);

    /// <summary>Rejects the lot with a reason. An open investigation is concluded first.</summary>
    public Task<bool> RejectAsync(Actor actor, Guid lotId, string reason, SecretProof proof, string shownHash, CancellationToken cancellation) =>
        DecideAsync(new Deed(RejectDeed, actor, Reason: reason), lotId, LotState.Rejected, "rejected", evidence => [.. evidence.ResultBlockers.Where(words => words.StartsWith("Investigation", StringComparison.Ordinal))], proof, shownHash, cancellation);

    /// <summary>Releases by concession what another person proposed.</summary>
    public Task<bool> ConcedeAsync(Actor actor, Guid lotId, string reason, SecretProof proof, string shownHash, CancellationToken cancellation) =>
        DecideAsync(new Deed(ConcedeDeed, actor, Reason: reason), lotId, LotState.ReleasedByConcession, "released by concession", evidence => evidence.ConcessionBlockers, proof, shownHash, cancellation);

    /// <summary>Proposes a concession; somebody else decides on it. A lot that keeps every limit needs none.</summary>
    public Task<bool> ProposeConcessionAsync(Actor actor, Guid lotId, string reason, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(ProposeDeed, actor, Reason: reason), async (scope, token) =>
        {
            var lot = await scope.FindAsync<Lot>(lotId, "lot", token);
            if (lot.IsDecided)
            {
                throw new RefusedException("lot-decided", $"Lot {lot.Number} is {lot.State.Words()} already.");
            }

            if ((await LotEvidence.OfAsync(scope.Data, lot, token)).NothingToConcede is { } words)
            {
                throw new RefusedException("nothing-to-concede", words);
            }

            scope.Data.Add(new ConcessionProposal { Id = scope.NewId(), LotId = lot.Id, ProposedById = scope.PersonId, ProposedByName = scope.By.Name, At = scope.Now, Reason = reason.Trim() });
            scope.About("Lot", lot.Id, lot.Number);
            return true;
        }, cancellation);

    private Task<bool> DecideAsync(
        Deed deed, Guid lotId, LotState decision, string meaning, Func<LotEvidence, IReadOnlyList<string>> blockers, SecretProof proof, string shownHash, CancellationToken cancellation) =>
        writing.CarryOutAsync(deed, async (scope, token) =>
        {
            var lot = await scope.FindAsync<Lot>(lotId, "lot", token);
            scope.About("Lot", lot.Id, lot.Number);
            var evidence = await LotEvidence.OfAsync(scope.Data, lot, token);
            if (evidence.ContentHash != shownHash)
            {
                throw new StaleVersionException($"Lot {lot.Number}");
            }

            if (blockers(evidence) is { Count: > 0 } inTheWay)
            {
                throw new RefusedException("blocked", $"Lot {lot.Number} cannot be {meaning}. {string.Join(' ', inTheWay)}");
            }

            await RequireIndependenceAsync(scope, evidence, decision, token);
            lot.Decide(decision);
            var signature = scope.Sign(proof, meaning, ("Lot", lot.Id), evidence.Content);
            scope.Data.Add(new Disposition
            {
                Id = scope.NewId(), LotId = lot.Id, Decision = decision, PersonId = scope.PersonId, PersonName = scope.Marked(scope.By.Name), At = scope.Now, Reason = deed.Reason?.Trim(), SignatureId = signature.Id,
            });
            return true;
        }, cancellation);

    private static async Task RequireIndependenceAsync(DeedScope scope, LotEvidence evidence, LotState decision, CancellationToken cancellation)
    {
        if (decision == LotState.OnHold)
        {
            return;
        }

        var onePerson = (await SettingsKeeping.OfAsync(scope.Data, cancellation)).OnePersonLaboratory;
        var runIds = evidence.AllRuns.Select(run => run.Id).ToList();
        var worked = await SeparationOfDuties.DidAsync(scope, runIds, RunsTables.DeedFamily, cancellation)
            || await SeparationOfDuties.DidAsync(scope, runIds, Review.ReviewsTable.DeedFamily, cancellation);
        SeparationOfDuties.Require(scope, onePerson, worked ? scope.PersonId : null, $"worked on or reviewed lot {evidence.Lot.Number}");
        SeparationOfDuties.Require(scope, onePerson, decision == LotState.ReleasedByConcession ? evidence.StandingProposal?.ProposedById : null, "proposed this concession");
    }
}
