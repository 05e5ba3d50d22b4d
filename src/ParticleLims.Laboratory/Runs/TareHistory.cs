using Microsoft.EntityFrameworkCore;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Runs;

/// <summary>One empty weighing of a sieve.</summary>
public sealed record TarePoint(DateTimeOffset At, Mass Mass, string RunNumber);

/// <summary>A run in which a sieve was used.</summary>
public sealed record SieveUse(Guid RunId, string RunNumber, string LotNumber, string ProductCode, RunState State, DateTimeOffset? StartedAt);

/// <summary>The empty masses of a sieve over time: each run adds one.</summary>
public sealed class TareHistory(ReadPath reading)
{
    private const int PointsForTheUsual = 10;

    /// <summary>All empty weighings of a sieve, oldest first.</summary>
    public Task<List<TarePoint>> OfAsync(Actor actor, Guid sieveId, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.SeeLaboratory, (data, _, token) =>
            Empties(data, sieveId).OrderBy(empty => empty.At).Join(data.Runs, empty => empty.RunId, run => run.Id, (empty, run) => new TarePoint(empty.At, empty.Mass, run.Number)).ToListAsync(token), cancellation);

    /// <summary>The runs in which a sieve was used, newest first, at most a hundred.</summary>
    public Task<List<SieveUse>> UsesAsync(Actor actor, Guid sieveId, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.SeeLaboratory, (data, _, token) => data.Runs.Where(run => run.Sieves.Any(sieve => sieve.SieveId == sieveId))
            .OrderByDescending(run => run.StartedAt).Take(100)
            .Select(run => new SieveUse(run.Id, run.Number, run.LotNumber, run.ProductCode, run.State, run.StartedAt)).ToListAsync(token), cancellation);

    /// <summary>The median of the last ten empty weighings; null while there are fewer than three.</summary>
    internal static async Task<Mass?> UsualAsync(LaboratoryContext data, Guid sieveId, CancellationToken cancellation)
    {
        var masses = await Empties(data, sieveId).OrderByDescending(empty => empty.At).Take(PointsForTheUsual).Select(empty => empty.Mass).ToListAsync(cancellation);
        return masses.Count < 3 ? null : masses.Order().ElementAt(masses.Count / 2);
    }

    private static IQueryable<Weighing> Empties(LaboratoryContext data, Guid sieveId) =>
        from sieve in data.Set<RunSieve>()
        join weighing in data.Weighings on new { sieve.RunId, sieve.Position } equals new { weighing.RunId, weighing.Position }
        where sieve.SieveId == sieveId && weighing.Kind == WeighingKind.Empty && !data.Set<Weighing>().Any(later => later.SupersedesId == weighing.Id)
        select weighing;
}
