using Microsoft.EntityFrameworkCore;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Sieves;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Runs;

/// <summary>One empty weighing of a sieve. Written by its members, because the database orders by them.</summary>
public sealed record TarePoint
{
    public required DateTimeOffset At { get; init; }
    public required Mass Mass { get; init; }
    public required string RunNumber { get; init; }
}

/// <summary>The empty masses of a sieve over time: each run adds one.</summary>
public sealed class TareHistory(ReadPath reading)
{
    private const int PointsForTheUsual = 10;

    /// <summary>All empty weighings of a sieve, oldest first.</summary>
    public Task<List<TarePoint>> OfAsync(Actor actor, Guid sieveId, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.SeeLaboratory, (data, _, token) => Points(data, sieveId).OrderBy(point => point.At).ToListAsync(token), cancellation);

    /// <summary>What a sieve weighs empty: the median of its first ten weighings, so that a sieve that creeps does not take it along. Null while there are fewer than three.</summary>
    /// <param name="masses">The empty masses, oldest first, since the last time its history was begun anew.</param>
    public static Mass? Usual(IReadOnlyList<Mass> masses)
    {
        ArgumentNullException.ThrowIfNull(masses);
        return masses.Count < 3 ? null : masses.Take(PointsForTheUsual).Order().ElementAt(Math.Min(masses.Count, PointsForTheUsual) / 2);
    }

    /// <summary>The same of one sieve.</summary>
    public Task<Mass?> UsualAsync(Actor actor, Guid sieveId, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.SeeLaboratory, (data, _, token) => UsualAsync(data, sieveId, token), cancellation);

    internal static async Task<Mass?> UsualAsync(LaboratoryContext data, Guid sieveId, CancellationToken cancellation)
    {
        var from = await data.TestSieves.Where(sieve => sieve.Id == sieveId).Select(sieve => sieve.TareFrom).FirstOrDefaultAsync(cancellation);
        return Usual(await Points(data, sieveId, from).OrderBy(point => point.At).Take(PointsForTheUsual).Select(point => point.Mass).ToListAsync(cancellation));
    }

    /// <summary>The empty weighings of a sieve that stand, from an instant on.</summary>
    internal static IQueryable<TarePoint> Points(LaboratoryContext data, Guid sieveId, DateTimeOffset? from)
    {
        var since = from ?? DateTimeOffset.UnixEpoch;
        return Points(data, sieveId).Where(point => point.At >= since);
    }

    private static IQueryable<TarePoint> Points(LaboratoryContext data, Guid sieveId) =>
        from run in data.Runs
        from sieve in run.Sieves
        from weighing in run.Weighings
        where sieve.SieveId == sieveId && weighing.Position == sieve.Position && weighing.Kind == WeighingKind.Empty && !run.Weighings.Any(later => later.SupersedesId == weighing.Id)
        select new TarePoint { At = weighing.At, Mass = weighing.Mass, RunNumber = run.Number };
}
