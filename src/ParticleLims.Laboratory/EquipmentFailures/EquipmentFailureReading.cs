using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Balances;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Runs;
using ParticleLims.Laboratory.Sieves;
using ParticleLims.Laboratory.SievingUnits;

namespace ParticleLims.Laboratory.EquipmentFailures;

/// <summary>A case as a list shows it.</summary>
public sealed record FailureRow(Guid Id, string Number, Guid EquipmentId, string EquipmentLabel, string What, DateTimeOffset OpenedAt, DateTimeOffset? ClosedAt, int Runs, int OpenLots);

/// <summary>Reads the cases of failed equipment.</summary>
public sealed class EquipmentFailureReading(ReadPath reading)
{
    /// <summary>One case with its runs and lots; null when there is none.</summary>
    public Task<EquipmentFailure?> FindAsync(Actor actor, Guid id, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.SeeLaboratory, (data, _, token) =>
            data.EquipmentFailures.Include(one => one.Runs.OrderBy(run => run.RunNumber)).Include(one => one.Lots.OrderBy(lot => lot.LotNumber)).AsSplitQuery().FirstOrDefaultAsync(one => one.Id == id, token), cancellation);

    /// <summary>The cases of one item, or all that are open; the newest first, at most a hundred.</summary>
    public Task<List<FailureRow>> AllAsync(Actor actor, Guid? equipmentId, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.SeeLaboratory, (data, _, token) =>
            data.EquipmentFailures.Where(one => equipmentId == null ? one.ClosedAt == null : one.EquipmentId == equipmentId).OrderByDescending(one => one.OpenedAt).Take(100)
                .Select(one => new FailureRow(
                    one.Id, one.Number, one.EquipmentId, one.EquipmentLabel, one.What, one.OpenedAt, one.ClosedAt, one.Runs.Count, one.Lots.Count(lot => lot.Decision == TouchedLotDecision.Open)))
                .ToListAsync(token), cancellation);

    /// <summary>
    /// When an item was last known to be good: its last passed inspection, commissioning, return or daily check; a check weight by the day of its last calibration. Where a check of a sieving unit failed,
    /// the last one of that kind that passed, and where the apertures of a sieve failed, the last time that they were found good, however lately something else of it was. Null where nothing says so.
    /// </summary>
    public Task<DateTimeOffset?> GoodUntilAsync(Actor actor, Guid equipmentId, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.SeeLaboratory, async (data, _, token) =>
        {
            if (await WhatKnown.OfAperturesAsync(data, equipmentId, token) is { Failed: true } apertures)
            {
                return apertures.GoodUntil;
            }

            if (await WhatKnown.CalibratedAsync(data, equipmentId, token) is { } calibrated)
            {
                return calibrated;
            }

            var looks = await data.TestSieves.Where(one => one.Id == equipmentId).Select(one => one.InspectedAt)
                .Concat(data.Balances.Where(one => one.Id == equipmentId).Select(one => one.InspectedAt))
                .Concat(data.SievingUnits.Where(one => one.Id == equipmentId).Select(one => one.InspectedAt)).ToListAsync(token);
            var check = await data.BalanceChecks.Where(check => check.BalanceId == equipmentId && check.Passed).OrderByDescending(check => check.At).Select(check => (DateTimeOffset?)check.At).FirstOrDefaultAsync(token);
            var failed = (await data.UnitChecks.Where(one => one.UnitId == equipmentId).OrderBy(one => one.At).ToListAsync(token)).GroupBy(one => one.Kind).Where(group => !group.Last().Passed).ToList();
            return failed.Count == 0 ? looks.Append(check).Max() : failed.Min(group => group.LastOrDefault(one => one.Passed)?.At ?? looks.Max());
        }, cancellation);

    /// <summary>The runs that used an item from an instant on, as a case would hold them.</summary>
    public Task<List<RunRow>> UsedSinceAsync(Actor actor, Guid equipmentId, DateTimeOffset since, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.SeeLaboratory, async (data, _, token) => await RunReading.Rows((await data.TouchedSinceAsync(equipmentId, since, token)).OrderBy(run => run.Number)).ToListAsync(token), cancellation);
}
