using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Laboratory.Runs;

/// <summary>A run in which a piece of equipment was used.</summary>
public sealed record EquipmentUse(Guid RunId, string RunNumber, string LotNumber, string ProductCode, RunState State, DateTimeOffset? StartedAt);

/// <summary>The runs in which a sieve, a balance or a sieving unit was used.</summary>
public sealed class EquipmentUses(ReadPath reading)
{
    /// <summary>So many at most.</summary>
    public const int Most = 100;

    /// <summary>The runs, newest first.</summary>
    public Task<List<EquipmentUse>> OfAsync(Actor actor, Guid equipmentId, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.SeeLaboratory, (data, _, token) => data.Runs.Where(run => run.BalanceId == equipmentId || run.SievingUnitId == equipmentId || run.Sieves.Any(sieve => sieve.SieveId == equipmentId))
            .OrderByDescending(run => run.StartedAt).Take(Most)
            .Select(run => new EquipmentUse(run.Id, run.Number, run.LotNumber, run.ProductCode, run.State, run.StartedAt)).ToListAsync(token), cancellation);
}
