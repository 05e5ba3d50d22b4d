using ParticleLims.Laboratory.Lots;
using ParticleLims.Laboratory.People;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Settings;

namespace ParticleLims.Laboratory.Dispositions;

/// <summary>Opens a decided lot again: one person asks for it, another signs. It is held from then on, and its certificates are suspended.</summary>
public sealed class LotReopening(WritePath writing, ILotCertificates certificates)
{
    private static readonly DeedKind ProposeDeed = new("dispositions.propose-reopening", "Re-opening of a lot proposed", Permission.ProposeConcession, ReasonRequired: true);
    private static readonly DeedKind ReopenDeed = new("dispositions.reopen", "Lot re-opened", Permission.DecideLots, ReasonRequired: true);

    /// <summary>Asks for a decided lot to be opened again, with the reason.</summary>
    public Task<bool> ProposeAsync(Actor actor, Guid lotId, string reason, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(ProposeDeed, actor, Reason: reason), async (scope, token) =>
        {
            var lot = await scope.FindAsync<Lot>(lotId, "lot", token);
            scope.About("Lot", lot.Id, lot.Number);
            if (!lot.IsDecided)
            {
                throw new RefusedException("lot-undecided", $"Lot {lot.Number} is {lot.State.Words()}; there is nothing to open again.");
            }

            scope.Data.Add(new ReopeningProposal { Id = scope.NewId(), LotId = lot.Id, ProposedById = scope.PersonId, ProposedByName = scope.By.Name, At = scope.Now, Reason = reason.Trim() });
            return true;
        }, cancellation);

    /// <summary>Opens the lot again by signature over what the page showed; never whoever asked for it.</summary>
    public Task<bool> ReopenAsync(Actor actor, Guid lotId, string reason, SecretProof proof, string shownHash, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(ReopenDeed, actor, Reason: reason), async (scope, token) =>
        {
            var lot = await scope.FindAsync<Lot>(lotId, "lot", token);
            scope.About("Lot", lot.Id, lot.Number);
            var evidence = await LotEvidence.OfAsync(scope.Data, lot, token);
            if (evidence.ContentHash != shownHash)
            {
                throw new StaleVersionException($"Lot {lot.Number}");
            }

            var proposal = evidence.Reopening ?? throw new RefusedException("reopening-not-proposed", $"Nobody has asked for lot {lot.Number} to be opened again; the laboratory manager can.");
            var onePerson = (await SettingsKeeping.OfAsync(scope.Data, token)).OnePersonLaboratory;
            SeparationOfDuties.Require(scope, onePerson, proposal.ProposedById, "asked for this lot to be opened again");
            lot.Reopen();
            await certificates.SuspendAsync(scope, lot.Id, $"Lot {lot.Number} was re-opened: {reason.Trim()}", token);
            var signature = scope.Sign(proof, Lot.ReopenedMeaning, ("Lot", lot.Id), evidence.Content);
            scope.Data.Add(new Disposition
            {
                Id = scope.NewId(), LotId = lot.Id, Decision = LotState.OnHold, PersonId = scope.PersonId, PersonName = scope.Marked(scope.By.Name), At = scope.Now, Reason = $"Re-opened: {reason.Trim()}", SignatureId = signature.Id,
            });
            return true;
        }, cancellation);
}
