using System.Linq.Expressions;
using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Balances;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Sieves;
using ParticleLims.Laboratory.SievingUnits;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Exchange;

/// <summary>A test sieve with what was last found of it.</summary>
public sealed record SieveEntry(TestSieve Sieve, ApertureMeasurement? Measured, SieveInspection? Inspected, ReferenceCheck? Checked);

/// <summary>A balance with its last daily check and its last repeatability test.</summary>
public sealed record BalanceEntry(Balance Balance, BalanceCheck? Checked, RepeatabilityTest? Tested);

/// <summary>A check weight with its last certificate.</summary>
public sealed record CheckWeightEntry(CheckWeight Weight, CheckWeightCalibration? Calibrated);

/// <summary>The whole equipment register, as an auditor asks for it: each item with its state and what was last found.</summary>
public sealed record EquipmentRegister(
    IReadOnlyList<SieveEntry> Sieves, IReadOnlyList<BalanceEntry> Balances, IReadOnlyList<CheckWeightEntry> Weights, IReadOnlyList<SievingUnit> Units, IReadOnlyList<UnitCheck> UnitChecks,
    IReadOnlyList<ReferenceMaterial> Materials);

/// <summary>Reads the whole equipment register.</summary>
public sealed class RegisterReading(ReadPath reading)
{
    /// <summary>All of it, scrapped items included, in the order of their serial numbers.</summary>
    public Task<EquipmentRegister> AllAsync(Actor actor, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.SeeLaboratory, async (data, _, token) => new EquipmentRegister(
            await SievesAsync(data, token), await BalancesAsync(data, token), await WeightsAsync(data, token),
            await data.SievingUnits.OrderBy(unit => unit.Serial).ToListAsync(token), await data.UnitChecks.OrderByDescending(check => check.At).ToListAsync(token),
            await data.ReferenceMaterials.OrderBy(material => material.Name).ThenBy(material => material.Batch).ToListAsync(token)), cancellation);

    private static async Task<List<SieveEntry>> SievesAsync(LaboratoryContext data, CancellationToken cancellation)
    {
        var measured = await LastAsync(data.ApertureMeasurements, one => one.SieveId, one => one.At, cancellation);
        var inspected = await LastAsync(data.SieveInspections, one => one.SieveId, one => one.At, cancellation);
        var seen = await LastAsync(data.ReferenceChecks, one => one.SieveId, one => one.At, cancellation);
        return [.. (await data.TestSieves.OrderBy(sieve => sieve.Serial).ToListAsync(cancellation)).Select(sieve =>
            new SieveEntry(sieve, measured.GetValueOrDefault(sieve.Id), inspected.GetValueOrDefault(sieve.Id), seen.GetValueOrDefault(sieve.Id)))];
    }

    private static async Task<List<BalanceEntry>> BalancesAsync(LaboratoryContext data, CancellationToken cancellation)
    {
        var seen = await LastAsync(data.BalanceChecks, one => one.BalanceId, one => one.At, cancellation);
        var tested = await LastAsync(data.Set<RepeatabilityTest>(), one => one.BalanceId, one => one.At, cancellation);
        return [.. (await data.Balances.OrderBy(balance => balance.Serial).ToListAsync(cancellation)).Select(balance =>
            new BalanceEntry(balance, seen.GetValueOrDefault(balance.Id), tested.GetValueOrDefault(balance.Id)))];
    }

    private static async Task<List<CheckWeightEntry>> WeightsAsync(LaboratoryContext data, CancellationToken cancellation)
    {
        var calibrated = await LastAsync(data.Set<CheckWeightCalibration>(), one => one.WeightId, one => one.At, cancellation);
        return [.. (await data.CheckWeights.OrderBy(weight => weight.Serial).ToListAsync(cancellation)).Select(weight => new CheckWeightEntry(weight, calibrated.GetValueOrDefault(weight.Id)))];
    }

    // The newest of each item: a year of daily checks is not read for one line of a table.
    private static async Task<Dictionary<Guid, T>> LastAsync<T>(IQueryable<T> all, Expression<Func<T, Guid>> item, Expression<Func<T, DateTimeOffset>> at, CancellationToken cancellation)
        where T : class =>
        (await all.GroupBy(item).Select(same => same.AsQueryable().OrderByDescending(at).First()).ToListAsync(cancellation)).ToDictionary(item.Compile());
}
