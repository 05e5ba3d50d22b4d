using Microsoft.EntityFrameworkCore;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Runs;

/// <summary>One empty weighing of a sieve. Written by its members, because the database orders by them.</summary>
public sealed record TarePoint
{
    public required DateTimeOffset At { get; init; }
    public required Mass Mass { get; init; }
    public required string RunNumber { get; init; }
}

/// <summary>A run in which a sieve was used.</summary>
public sealed record SieveUse(Guid RunId, string RunNumber, string LotNumber, string ProductCode, RunState State, DateTimeOffset? StartedAt);

/// <summary>The empty masses of a sieve over time: each run adds one.</summary>
public sealed class TareHistory(ReadPath reading)
{
    private const int PointsForTheUsual = 10;

    /// <summary>All empty weighings of a sieve, oldest first.</summary>
    public Task<List<TarePoint>> OfAsync(Actor actor, Guid sieveId, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.SeeLaboratory, (data, _, token) => Points(data, sieveId).OrderBy(point => point.At).ToListAsync(token), cancellation);

    /// <summary>The runs in which a sieve was used, newest first, at most a hundred.</summary>
    public Task<List<SieveUse>> UsesAsync(Actor actor, Guid sieveId, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.SeeLaboratory, (data, _, token) => data.Runs.Where(run => run.Sieves.Any(sieve => sieve.SieveId == sieveId))
            .OrderByDescending(run => run.StartedAt).Take(100)
            .Select(run => new SieveUse(run.Id, run.Number, run.LotNumber, run.ProductCode, run.State, run.StartedAt)).ToListAsync(token), cancellation);

    /// <summary>What a sieve usually weighs empty; null while it was weighed fewer than three times.</summary>
    public Task<Mass?> UsualAsync(Actor actor, Guid sieveId, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.SeeLaboratory, (data, _, token) => UsualAsync(data, sieveId, token), cancellation);

    /// <summary>The median of the last ten empty weighings; null while there are fewer than three.</summary>
    public static Mass? Usual(IReadOnlyList<TarePoint> points)
    {
        ArgumentNullException.ThrowIfNull(points);
        return Median([.. points.OrderByDescending(point => point.At).Take(PointsForTheUsual).Select(point => point.Mass)]);
    }

    internal static async Task<Mass?> UsualAsync(LaboratoryContext data, Guid sieveId, CancellationToken cancellation)
    {
        var masses = await Points(data, sieveId).OrderByDescending(point => point.At).Take(PointsForTheUsual).Select(point => point.Mass).ToListAsync(cancellation);
        return Median(masses);
    }

    private static Mass? Median(List<Mass> masses) => masses.Count < 3 ? null : masses.Order().ElementAt(masses.Count / 2);

    private static IQueryable<TarePoint> Points(LaboratoryContext data, Guid sieveId) =>
        from run in data.Runs
        from sieve in run.Sieves
        from weighing in run.Weighings
        where sieve.SieveId == sieveId && weighing.Position == sieve.Position && weighing.Kind == WeighingKind.Empty && !run.Weighings.Any(later => later.SupersedesId == weighing.Id)
        select new TarePoint { At = weighing.At, Mass = weighing.Mass, RunNumber = run.Number };
}
