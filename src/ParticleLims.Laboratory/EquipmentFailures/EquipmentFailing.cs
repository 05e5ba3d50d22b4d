using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Equipment;
using ParticleLims.Laboratory.Lots;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Settings;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.EquipmentFailures;

/// <summary>What follows when a piece of equipment turns out to be bad.</summary>
public sealed class EquipmentFailing(WritePath writing, ILotCertificates certificates)
{
    private static readonly DeedKind MarkDeed = new("equipment-failures.open", "Equipment marked as failed", Permission.KeepEquipment);
    private static readonly DeedKind DecideDeed = new("equipment-failures.decide", "Decision on a lot that failed equipment touched", Permission.DecideLots);
    private static readonly DeedKind CloseDeed = new("equipment-failures.close", "Case of failed equipment closed", Permission.DecideLots);

    /// <summary>
    /// Marks an item as failed since its last good check. It goes out of service; every run that used it since, or a balance that was checked with it, and its lot, goes into the case; a lot that nobody has decided on yet is held, and certificates in force
    /// that rest on those runs are suspended while the case is open.
    /// </summary>
    /// <typeparam name="T">A sieve, a balance, a sieving unit or a check weight.</typeparam>
    /// <param name="actor">Whoever keeps the equipment.</param>
    /// <param name="equipmentId">The item.</param>
    /// <param name="what">What is wrong with it.</param>
    /// <param name="goodUntil">Its last good check.</param>
    /// <param name="version">The item's version as it was read.</param>
    /// <param name="key">The idempotency key.</param>
    /// <param name="cancellation">Ends the deed before it is written.</param>
    public Task<Guid> MarkAsync<T>(Actor actor, Guid equipmentId, string what, DateTimeOffset goodUntil, long version, string? key, CancellationToken cancellation)
        where T : class, IEquipment, IVersioned =>
        writing.CarryOutAsync(new Deed(MarkDeed, actor, key) { Asked = new { equipmentId, what, goodUntil } }, async (scope, token) =>
        {
            var item = await scope.FindAsync<T>(equipmentId, "piece of equipment", token);
            DeedScope.RequireVersion(item, version, item.Label);
            if (what.Trim().Length < 5 || goodUntil > scope.Now)
            {
                throw new RefusedException("failure-incomplete", "Say what is wrong with it (at least five letters), and when it was last known to be good: a time that has passed.", goodUntil > scope.Now ? "goodUntil" : "what");
            }

            var failure = new EquipmentFailure
            {
                Id = scope.NewId(), Number = await scope.NextNumberAsync("E", token), EquipmentId = item.Id, EquipmentLabel = item.Label, What = what.Trim(), GoodUntil = goodUntil, OpenedAt = scope.Now, OpenedByName = scope.By.Name,
            };
            scope.Data.Add(failure);
            scope.About(nameof(EquipmentFailure), failure.Id, failure.Number);
            await TouchAsync(scope, failure, token);
            Stop(scope, item, failure);
            return failure.Id;
        }, cancellation);

    /// <summary>Decides on one of its lots. Withdrawing, sieving again and telling the customer are deeds of their own; this says that they are the answer.</summary>
    public Task<bool> DecideAsync(Actor actor, Guid failureId, Guid lotId, TouchedLotDecision decision, string words, long version, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(DecideDeed, actor), async (scope, token) =>
        {
            var failure = await FindAsync(scope, failureId, version, token);
            failure.RequireOpen();
            var lot = failure.Lots.Find(one => one.LotId == lotId) ?? throw new RefusedException("not-found", $"Case {failure.Number} has no such lot.");
            if (decision == TouchedLotDecision.Open || words.Trim().Length < 5)
            {
                throw new RefusedException("decision-missing", $"Say what is decided about lot {lot.LotNumber}, and why (at least five letters).", "words");
            }

            (lot.Decision, lot.Words, lot.DecidedByName, lot.DecidedAt) = (decision, words.Trim(), scope.By.Name, scope.Now);

            // The case counts as changed too, so that another window's version of it grows stale.
            scope.Data.Entry(failure).State = EntityState.Modified;
            return true;
        }, cancellation);

    /// <summary>Closes the case over a signature, when every lot is decided on. Where the results stand their certificates count again; the others stay suspended until somebody revises, withdraws or reinstates them.</summary>
    public Task<bool> CloseAsync(Actor actor, Guid failureId, string conclusion, SecretProof proof, long version, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(CloseDeed, actor), async (scope, token) =>
        {
            var failure = await FindAsync(scope, failureId, version, token);
            if (conclusion.Trim().Length < 5)
            {
                throw new RefusedException("conclusion-missing", "Say in a few words what was found and done (at least five letters).", "conclusion");
            }

            failure.Close(scope, conclusion);
            // Those that stay suspended first: a certificate of several lots stays so when one of them does.
            foreach (var lot in failure.Lots.OrderBy(lot => lot.Decision == TouchedLotDecision.ResultsStand).ThenBy(lot => lot.LotNumber, StringComparer.Ordinal))
            {
                await certificates.EndHoldAsync(scope, failure.Id, lot.LotId, lot.Decision == TouchedLotDecision.ResultsStand, lot.Decision.Words(), token);
            }

            scope.Sign(proof, "closed", (nameof(EquipmentFailure), failure.Id), SignedCase.ContentOf(failure));
            return true;
        }, cancellation);

    private async Task TouchAsync(DeedScope scope, EquipmentFailure failure, CancellationToken cancellation)
    {
        var runs = await (await scope.Data.TouchedSinceAsync(failure.EquipmentId, failure.GoodUntil, cancellation)).OrderBy(run => run.Number).Select(run => new { run.Id, run.Number, run.SampleId, run.LotId }).ToListAsync(cancellation);
        scope.Data.AddRange(runs.Select(run => new TouchedRun { FailureId = failure.Id, RunId = run.Id, RunNumber = run.Number, SampleId = run.SampleId, LotId = run.LotId }));
        foreach (var lotId in runs.Select(run => run.LotId).Distinct())
        {
            var lot = await scope.FindAsync<Lot>(lotId, "lot", cancellation);
            lot.HoldForInvestigation();
            scope.Data.Add(new TouchedLot { FailureId = failure.Id, LotId = lot.Id, LotNumber = lot.Number });
            await certificates.HoldAsync(scope, new HoldingCase(HoldingCaseKind.EquipmentFailure, failure.Id, failure.Number), lot.Id, [.. runs.Where(run => run.LotId == lotId).Select(run => run.SampleId)], cancellation);
        }
    }

    private static void Stop(DeedScope scope, IEquipment item, EquipmentFailure failure)
    {
        EquipmentKeeping.Tell(scope, item.Id, MarkDeed.Words, $"{failure.Number}: {failure.What}");
        if (item.State is EquipmentState.InService or EquipmentState.AwaitingCommissioning)
        {
            item.Move(EquipmentState.OutOfService, $"{failure.Number}: {failure.What}", item.State);
        }
    }

    private static async Task<EquipmentFailure> FindAsync(DeedScope scope, Guid id, long version, CancellationToken cancellation)
    {
        var failure = await scope.Data.EquipmentFailures.AsTracking().Include(one => one.Lots).FirstOrDefaultAsync(one => one.Id == id, cancellation)
            ?? throw new RefusedException("not-found", "There is no such case. It may have been opened from an old link.");
        DeedScope.RequireVersion(failure, version, $"Case {failure.Number}");
        scope.About(nameof(EquipmentFailure), failure.Id, failure.Number);
        return failure;
    }
}
