using System.Globalization;
using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Equipment;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Settings;
using ParticleLims.Laboratory.SievingUnits;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Runs;

/// <summary>When something is to be checked at a sieving unit again.</summary>
/// <param name="Plan">How often.</param>
/// <param name="Last">Its last check; null where there was none yet.</param>
/// <param name="DueOn">The last day on which it still counts; null where days do not count or the unit awaits its commissioning.</param>
/// <param name="Sieved">How long the unit sieved since; zero where hours do not count.</param>
public sealed record UnitDue(UnitCheckPlan Plan, UnitCheck? Last, DateOnly? DueOn, TimeSpan Sieved)
{
    /// <summary>So many hours before it is due it is announced.</summary>
    public const int HoursAhead = 5;

    /// <summary>What is checked.</summary>
    public UnitCheckKind Kind => Plan.Kind;

    /// <summary>Whether it has to be checked before the unit is used.</summary>
    public bool IsOverdue(DateOnly today) => DueOn < today || Sieved.TotalHours >= Plan.EveryHours;

    /// <summary>Whether it falls due within <see cref="EquipmentDues.DaysAhead"/> days, or within <see cref="HoursAhead"/> hours of sieving.</summary>
    public bool IsNear(DateOnly today) => IsOverdue(today) || DueOn <= today.AddDays(EquipmentDues.DaysAhead) || Plan.EveryHours - Sieved.TotalHours <= HoursAhead;

    /// <summary>When, in words: "due 2026-12-01 or after 41.2 h more".</summary>
    public string Words(DateOnly today)
    {
        if (IsOverdue(today))
        {
            return DueOn < today
                ? string.Create(CultureInfo.InvariantCulture, $"overdue since {DueOn:yyyy-MM-dd}")
                : string.Create(CultureInfo.InvariantCulture, $"overdue: {Sieved.TotalHours:0.0} h sieved, {Plan.EveryHours} h allowed");
        }

        string[] parts =
        [
            .. DueOn is { } on ? [string.Create(CultureInfo.InvariantCulture, $"due {on:yyyy-MM-dd}")] : Array.Empty<string>(),
            .. Plan.EveryHours is { } hours ? [string.Create(CultureInfo.InvariantCulture, $"after {hours - Sieved.TotalHours:0.0} h more")] : Array.Empty<string>(),
        ];
        return parts.Length == 0 ? "to be commissioned" : string.Join(" or ", parts);
    }
}

/// <summary>Whether a sieving unit may be used, computed at the moment of use from its state, its date and its checks.</summary>
/// <param name="Unfit">What is wrong, what to do and who may; null when it may be used.</param>
/// <param name="Dues">Every check with its date.</param>
/// <param name="Sieved">How long it has sieved in all.</param>
/// <param name="Snapshot">What a run keeps of it.</param>
public sealed record UnitFitness(string? Unfit, IReadOnlyList<UnitDue> Dues, TimeSpan Sieved, string Snapshot)
{
    /// <summary>The fitness of a unit on a day.</summary>
    internal static async Task<UnitFitness> OfAsync(LaboratoryContext data, SievingUnit unit, LaboratorySettings settings, DateOnly today, CancellationToken cancellation)
    {
        var plans = await data.UnitCheckPlans.AsNoTracking().Where(plan => plan.UnitId == unit.Id).ToListAsync(cancellation);
        var checks = await LastAsync(data, unit.Id, cancellation);
        var dues = new List<UnitDue>();
        foreach (var kind in UnitCheckKinds.Of(unit.IsAirJet))
        {
            var plan = plans.Find(one => one.Kind == kind) ?? UnitCheckPlan.Usual(unit.Id, kind);
            var ofKind = checks.FindAll(check => check.Kind == kind);
            var good = ofKind.FindAll(check => check.Passed).MaxBy(check => check.At);
            var day = good?.Day ?? (unit.InspectedAt is { } commissioned ? settings.LocalDay(commissioned) : null);
            var sieved = plan.EveryHours is null ? TimeSpan.Zero : await SievedAsync(data, unit.Id, good?.At ?? unit.InspectedAt, cancellation);
            dues.Add(new UnitDue(plan, ofKind.MaxBy(check => check.At), plan.EveryDays is { } days ? day?.AddDays(days) : null, sieved));
        }

        var unfit = unit.UnfitReason(today) ?? dues.Find(due => due.IsOverdue(today)) switch
        {
            { } due => $"On the {unit.Label} the check of {due.Kind.Words()} is {due.Words(today)}. Take another unit, or check it on its page; whoever carries out runs may.",
            _ => null,
        };
        return new UnitFitness(unfit, dues, await SievedAsync(data, unit.Id, null, cancellation), Kept(unit, dues, today));
    }

    // Of each kind the last check that passed and the last that failed, in one question however long the history is.
    private static Task<List<UnitCheck>> LastAsync(LaboratoryContext data, Guid unitId, CancellationToken cancellation)
    {
        var ofUnit = data.UnitChecks.AsNoTracking().Where(check => check.UnitId == unitId);
        return ofUnit.Where(check => !ofUnit.Any(later => later.Kind == check.Kind && later.Passed == check.Passed && later.At > check.At)).ToListAsync(cancellation);
    }

    private static async Task<TimeSpan> SievedAsync(LaboratoryContext data, Guid unitId, DateTimeOffset? since, CancellationToken cancellation) => TimeSpan.FromSeconds(
        await (from run in data.Runs
               where run.SievingUnitId == unitId
               from interval in run.Intervals
               where interval.EndedAt != null && (since == null || interval.EndedAt > since)
               select (long)interval.Seconds).SumAsync(cancellation));

    private static string Kept(SievingUnit unit, List<UnitDue> dues, DateOnly today) =>
        string.Create(CultureInfo.InvariantCulture, $"{unit.State.Words()}; inspected {unit.InspectedAt?.UtcDateTime:yyyy-MM-dd}, due {unit.InspectionDueOn:yyyy-MM-dd}; {string.Join("; ", dues.Select(due => $"{due.Kind.Words()} {due.Words(today)}"))}");
}

/// <summary>Reads whether sieving units may be used now.</summary>
public sealed class UnitFitnessReading(ReadPath reading, TimeProvider clock)
{
    /// <summary>The fitness of a unit now; null when there is none.</summary>
    public Task<UnitFitness?> FindAsync(Actor actor, Guid unitId, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.SeeLaboratory, async (data, _, token) =>
            await data.SievingUnits.FirstOrDefaultAsync(unit => unit.Id == unitId, token) is { } unit ? await OfAsync(data, unit, token) : null, cancellation);

    /// <summary>The fitness of all units that are not scrapped, by their keys.</summary>
    public Task<IReadOnlyDictionary<Guid, UnitFitness>> AllAsync(Actor actor, CancellationToken cancellation) =>
        reading.ReadAsync<IReadOnlyDictionary<Guid, UnitFitness>>(actor, Permission.SeeLaboratory, async (data, _, token) =>
        {
            var all = new Dictionary<Guid, UnitFitness>();
            foreach (var unit in await data.SievingUnits.Where(unit => unit.State != EquipmentState.Scrapped).ToListAsync(token))
            {
                all[unit.Id] = await OfAsync(data, unit, token);
            }

            return all;
        }, cancellation);

    private async Task<UnitFitness> OfAsync(LaboratoryContext data, SievingUnit unit, CancellationToken cancellation)
    {
        var settings = await SettingsKeeping.OfAsync(data, cancellation);
        return await UnitFitness.OfAsync(data, unit, settings, settings.LocalDay(clock.GetUtcNow()), cancellation);
    }
}
