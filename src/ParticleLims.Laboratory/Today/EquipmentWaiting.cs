using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Balances;
using ParticleLims.Laboratory.Equipment;
using ParticleLims.Laboratory.Sieves;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Today;

/// <summary>A piece of equipment that somebody has to see to.</summary>
/// <param name="Id">The sieve or the balance.</param>
/// <param name="IsSieve">False for a balance.</param>
/// <param name="Label">What it is, for people.</param>
/// <param name="State">Its state.</param>
/// <param name="StateReason">Why it is out of service, or why its empty mass asks for an inspection.</param>
/// <param name="DueOn">The last day on which its inspection counts.</param>
/// <param name="Overdue">Whether that day is over.</param>
public sealed record EquipmentWaiting(Guid Id, bool IsSieve, string Label, EquipmentState State, string? StateReason, DateOnly? DueOn, bool Overdue)
{
    /// <summary>How many days ahead an inspection is announced.</summary>
    public const int DaysAhead = 30;

    /// <summary>Sieves and balances out of service, awaiting commissioning, or due within <see cref="DaysAhead"/> days; the most pressing first.</summary>
    internal static async Task<List<EquipmentWaiting>> OfAsync(LaboratoryContext data, DateOnly today, CancellationToken cancellation)
    {
        var limit = today.AddDays(DaysAhead);
        var sieves = await data.TestSieves.Where(one => one.State != EquipmentState.Scrapped && (one.TareSignal != null || one.State != EquipmentState.InService || one.InspectionDueOn == null || one.InspectionDueOn <= limit)).ToListAsync(cancellation);
        var balances = await data.Balances.Where(one => one.State != EquipmentState.Scrapped && (one.State != EquipmentState.InService || one.InspectionDueOn == null || one.InspectionDueOn <= limit)).ToListAsync(cancellation);
        return [.. sieves.Select(one => Of(one, isSieve: true, today)).Concat(balances.Select(one => Of(one, isSieve: false, today)))
            .OrderByDescending(one => one.Overdue).ThenBy(one => one.State == EquipmentState.InService).ThenBy(one => one.DueOn ?? DateOnly.MaxValue).ThenBy(one => one.Label, StringComparer.Ordinal)];
    }

    private static EquipmentWaiting Of(IEquipment item, bool isSieve, DateOnly today) =>
        new(item.Id, isSieve, item.Label, item.State, item.StateReason ?? (item as TestSieve)?.TareSignal, item.InspectionDueOn, item.State == EquipmentState.InService && item.InspectionDueOn < today);
}
