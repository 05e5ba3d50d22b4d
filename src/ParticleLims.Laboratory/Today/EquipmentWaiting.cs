using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Balances;
using ParticleLims.Laboratory.Equipment;
using ParticleLims.Laboratory.Runs;
using ParticleLims.Laboratory.Settings;
using ParticleLims.Laboratory.Sieves;
using ParticleLims.Laboratory.SievingUnits;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Today;

/// <summary>What kind of equipment waits.</summary>
public enum EquipmentWaitingKind
{
    Sieve,
    Balance,
    SievingUnit,
    CheckWeight,
}

/// <summary>A piece of equipment that somebody has to see to.</summary>
/// <param name="Id">The item.</param>
/// <param name="Kind">What it is.</param>
/// <param name="Label">What it is, for people.</param>
/// <param name="State">Its state.</param>
/// <param name="Why">Why it is out of service, or what asks for an inspection or a check; null where only its date does.</param>
/// <param name="DueOn">The last day on which its inspection counts.</param>
/// <param name="Overdue">Whether that day, or a check's, is over.</param>
public sealed record EquipmentWaiting(Guid Id, EquipmentWaitingKind Kind, string Label, EquipmentState State, string? Why, DateOnly? DueOn, bool Overdue)
{
    /// <summary>Equipment out of service, awaiting commissioning, asking for an inspection or a check, or due within <see cref="EquipmentDues.DaysAhead"/> days; the most pressing first.</summary>
    internal static async Task<List<EquipmentWaiting>> OfAsync(LaboratoryContext data, DateOnly today, CancellationToken cancellation)
    {
        var limit = today.AddDays(EquipmentDues.DaysAhead);
        var weights = await data.CheckWeights.Where(one => one.State != EquipmentState.Scrapped && (one.State != EquipmentState.InService || one.InspectionDueOn == null || one.InspectionDueOn <= limit)).ToListAsync(cancellation);
        return
        [
            .. ((EquipmentWaiting[])[
                .. await SievesAsync(data, today, limit, cancellation), .. await BalancesAsync(data, today, limit, cancellation),
                .. weights.Select(one => Of(one, EquipmentWaitingKind.CheckWeight, today)), .. await UnitsAsync(data, today, limit, cancellation)])
                .OrderByDescending(one => one.Overdue).ThenBy(one => one.State == EquipmentState.InService).ThenBy(one => one.DueOn ?? DateOnly.MaxValue).ThenBy(one => one.Label, StringComparer.Ordinal),
        ];
    }

    private static async Task<List<EquipmentWaiting>> SievesAsync(LaboratoryContext data, DateOnly today, DateOnly limit, CancellationToken cancellation)
    {
        var used = await SieveFitness.NearAsync(data, cancellation);
        var references = await ReferenceDue.NearAsync(data, today, cancellation);
        List<Guid> near = [.. used.Keys, .. references.Keys];
        var sieves = await data.TestSieves.Where(one => one.State != EquipmentState.Scrapped
            && (one.TareSignal != null || near.Contains(one.Id) || one.State != EquipmentState.InService || one.InspectionDueOn == null || one.InspectionDueOn <= limit)).ToListAsync(cancellation);
        return sieves.ConvertAll(sieve =>
        {
            var one = Of(sieve, EquipmentWaitingKind.Sieve, today);
            one = used.TryGetValue(sieve.Id, out var runs)
                ? one with { Why = sieve.TareSignal ?? SieveFitness.RunsWords(runs, sieve.InspectEveryRuns), Overdue = one.Overdue || runs >= sieve.InspectEveryRuns }
                : one with { Why = sieve.StateReason ?? sieve.TareSignal };
            return references.TryGetValue(sieve.Id, out var due)
                ? one with { Why = one.Why is null ? due.Words(today) : $"{one.Why}; {due.Words(today)}", Overdue = one.Overdue || due.IsOverdue(today) }
                : one;
        });
    }

    private static async Task<List<EquipmentWaiting>> BalancesAsync(LaboratoryContext data, DateOnly today, DateOnly limit, CancellationToken cancellation)
    {
        var waiting = new List<EquipmentWaiting>();
        foreach (var balance in await data.Balances.AsNoTracking().Where(one => one.State != EquipmentState.Scrapped
            && (one.State != EquipmentState.InService || one.InspectionDueOn == null || one.InspectionDueOn <= limit || one.RepeatEveryDays != null)).ToListAsync(cancellation))
        {
            var one = Of(balance, EquipmentWaitingKind.Balance, today);
            var due = balance.State == EquipmentState.InService ? await RepeatabilityDue.OfAsync(data, balance, cancellation) : null;
            if (due?.IsNear(today) == true)
            {
                waiting.Add(one with { Why = due.Words(today), Overdue = one.Overdue || due.IsOverdue(today) });
            }
            else if (balance.State != EquipmentState.InService || balance.InspectionDueOn is null || balance.InspectionDueOn <= limit)
            {
                waiting.Add(one);
            }
        }

        return waiting;
    }

    private static async Task<List<EquipmentWaiting>> UnitsAsync(LaboratoryContext data, DateOnly today, DateOnly limit, CancellationToken cancellation)
    {
        var settings = await SettingsKeeping.OfAsync(data, cancellation);
        var waiting = new List<EquipmentWaiting>();
        foreach (var unit in await data.SievingUnits.Where(unit => unit.State != EquipmentState.Scrapped).ToListAsync(cancellation))
        {
            var fitness = await UnitFitness.OfAsync(data, unit, settings, today, cancellation);
            var near = unit.State == EquipmentState.InService ? fitness.Dues.Where(due => due.IsOverdue(today) || due.IsNear(today) || due.DueOn <= limit).ToList() : [];
            if (near.Count > 0 || unit.State != EquipmentState.InService || unit.InspectionDueOn is null || unit.InspectionDueOn <= limit)
            {
                var one = Of(unit, EquipmentWaitingKind.SievingUnit, today);
                waiting.Add(one with { Why = one.Why ?? (near.Count == 0 ? null : string.Join("; ", near.Select(due => $"{due.Kind.Words()} {due.Words(today)}"))), Overdue = one.Overdue || near.Exists(due => due.IsOverdue(today)) });
            }
        }

        return waiting;
    }

    private static EquipmentWaiting Of(IEquipment item, EquipmentWaitingKind kind, DateOnly today) =>
        new(item.Id, kind, item.Label, item.State, item.StateReason, item.InspectionDueOn, item.State == EquipmentState.InService && item.InspectionDueOn < today);
}
