using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Balances;
using ParticleLims.Laboratory.Equipment;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Settings;
using ParticleLims.Laboratory.Sieves;
using ParticleLims.Laboratory.SievingUnits;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Runs;

/// <summary>Lets one run use a sieve, a balance or a sieving unit that is overdue or asks for an inspection, over the quality manager's signature. What is out of service stays out.</summary>
public sealed class FitnessOverriding(WritePath writing, ReadPath reading)
{
    private static readonly DeedKind AllowDeed = new("equipment.allow-unfit", "Unfit equipment allowed for one run", Permission.DecideLots, ReasonRequired: true);

    /// <summary>Allows it.</summary>
    /// <param name="actor">The quality manager.</param>
    /// <param name="runId">A run that is planned or goes on.</param>
    /// <param name="equipmentId">A sieve, a balance or a sieving unit in service.</param>
    /// <param name="reason">Why it is right all the same; it is printed.</param>
    /// <param name="proof">The password given again.</param>
    /// <param name="cancellation">Ends the deed before it is written.</param>
    public Task<Guid> AllowAsync(Actor actor, Guid runId, Guid equipmentId, string reason, SecretProof proof, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(AllowDeed, actor, Reason: reason), async (scope, token) =>
        {
            var run = await scope.FindAsync<Run>(runId, "run", token);
            scope.About("Run", run.Id, run.Label);
            if (run.State is not (RunState.Planned or RunState.InProgress or RunState.Returned))
            {
                throw new RefusedException("run-state", $"Run {run.Number} is {run.State.Words()}; nothing is allowed for it any more.");
            }

            var (label, unfit) = await UnfitAsync(scope, run, equipmentId, token);
            var signature = scope.Sign(proof, FitnessOverride.Meaning, (nameof(Run), run.Id), FitnessOverride.ContentOf(run, label, unfit, reason.Trim()));
            var given = new FitnessOverride
            {
                Id = scope.NewId(), RunId = run.Id, RunNumber = run.Number, EquipmentId = equipmentId, EquipmentLabel = label, Unfit = unfit, Reason = reason.Trim(), PersonName = scope.By.Name, At = scope.Now, SignatureId = signature.Id,
            };
            scope.Data.Add(given);
            EquipmentKeeping.Tell(scope, equipmentId, AllowDeed.Words, $"Run {run.Number}: {reason}");
            return given.Id;
        }, cancellation);

    /// <summary>What was allowed for a piece of equipment, newest first.</summary>
    public Task<List<FitnessOverride>> OfEquipmentAsync(Actor actor, Guid equipmentId, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.SeeLaboratory, (data, _, token) => data.Set<FitnessOverride>().Where(one => one.EquipmentId == equipmentId).OrderByDescending(one => one.At).ToListAsync(token), cancellation);

    private static Task<bool> IsGivenAsync(LaboratoryContext data, Guid runId, Guid equipmentId, CancellationToken cancellation) =>
        data.Set<FitnessOverride>().AnyAsync(one => one.RunId == runId && one.EquipmentId == equipmentId, cancellation);

    /// <summary>Nothing where it is fit, or where the quality manager signed for this run; what is out of service stays out.</summary>
    internal static async Task<string?> OrAllowedAsync(LaboratoryContext data, Guid runId, IEquipment item, string? unfit, CancellationToken cancellation) =>
        unfit is null || (item.State == EquipmentState.InService && await IsGivenAsync(data, runId, item.Id, cancellation)) ? null : unfit;

    private static async Task<(string Label, string Unfit)> UnfitAsync(DeedScope scope, Run run, Guid id, CancellationToken cancellation)
    {
        IEquipment? item = await scope.Data.TestSieves.FirstOrDefaultAsync(sieve => sieve.Id == id, cancellation);
        item ??= await scope.Data.SievingUnits.FirstOrDefaultAsync(unit => unit.Id == id, cancellation);
        item ??= await scope.FindAsync<Balance>(id, "sieve, balance or sieving unit", cancellation);
        if (item.State != EquipmentState.InService)
        {
            throw new RefusedException("equipment-state", $"The {item.Label} is {item.State.Words()}. No signature takes it into a run; whoever keeps the equipment puts it back with evidence first.");
        }

        var settings = await SettingsKeeping.OfAsync(scope.Data, cancellation);
        var today = settings.LocalDay(scope.Now);
        var unfit = item switch
        {
            TestSieve sieve => (await SieveFitness.OfAsync(scope.Data, sieve, today, cancellation)).Unfit,
            SievingUnit unit => (await UnitFitness.OfAsync(scope.Data, unit, settings, today, cancellation)).Unfit,
            _ => (await BalanceFitness.OfAsync(scope.Data, (Balance)item, await scope.MethodOfAsync(run), scope.Now, cancellation)).Unfit,
        };
        return (item.Label, unfit ?? throw new RefusedException("equipment-fit", $"The {item.Label} is fit for use; there is nothing to allow."));
    }
}
