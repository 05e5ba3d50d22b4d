using System.Globalization;
using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Equipment;
using ParticleLims.Laboratory.Settings;
using ParticleLims.Laboratory.Sieves;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Runs;

/// <summary>When a sieve is to be checked with a reference material again; apart from when it is looked at.</summary>
/// <param name="EveryDays">After how many days; null where days do not count.</param>
/// <param name="EveryRuns">After how many runs; null where runs do not count.</param>
/// <param name="LastAt">Its last check that was passed; null where there was none yet.</param>
/// <param name="DueOn">The last day on which it still counts; null where days do not count.</param>
/// <param name="Runs">How many runs used the sieve since; zero where runs do not count.</param>
public sealed record ReferenceDue(int? EveryDays, int? EveryRuns, DateTimeOffset? LastAt, DateOnly? DueOn, int Runs)
{
    /// <summary>Whether it has to be checked before the sieve is used.</summary>
    public bool IsOverdue(DateOnly today) => DueOn < today || Runs >= EveryRuns;

    /// <summary>Whether it falls due within <see cref="EquipmentDues.DaysAhead"/> days, or within <see cref="SieveFitness.RunsAhead"/> runs.</summary>
    public bool IsNear(DateOnly today) => IsOverdue(today) || DueOn <= today.AddDays(EquipmentDues.DaysAhead) || EveryRuns - Runs <= SieveFitness.RunsAhead;

    /// <summary>When, in words: "reference check due 2026-12-01 or after 12 runs more".</summary>
    public string Words(DateOnly today) => $"reference check {When(today)}";

    /// <summary>The same without what it is: "due 2026-12-01 or after 12 runs more".</summary>
    public string When(DateOnly today)
    {
        if (IsOverdue(today))
        {
            return DueOn < today
                ? string.Create(CultureInfo.InvariantCulture, $"overdue since {DueOn:yyyy-MM-dd}")
                : string.Create(CultureInfo.InvariantCulture, $"overdue: {Runs} of {EveryRuns} runs");
        }

        string?[] parts =
        [
            DueOn is { } on ? string.Create(CultureInfo.InvariantCulture, $"due {on:yyyy-MM-dd}") : null,
            EveryRuns - Runs is { } left ? string.Create(CultureInfo.InvariantCulture, $"after {left} {(left == 1 ? "run" : "runs")} more") : null,
        ];
        return string.Join(" or ", parts.OfType<string>());
    }

    /// <summary>Why a sieve must not be used: its check is overdue; null where it is not.</summary>
    internal string? Unfit(TestSieve sieve, DateOnly today) => IsOverdue(today)
        ? $"On the {sieve.Label} the {Words(today)}. Take another one, or check it with a reference material on its page; whoever carries out runs may."
        : null;

    /// <summary>When that of a sieve falls due; null where no interval is set.</summary>
    internal static async Task<ReferenceDue?> OfAsync(LaboratoryContext data, TestSieve sieve, CancellationToken cancellation)
    {
        if (sieve.ReferenceEveryDays is null && sieve.ReferenceEveryRuns is null)
        {
            return null;
        }

        var last = (await SieveMeasuring.LastAsync(data, sieve.Id, cancellation))?.At;
        var from = last ?? sieve.ReferenceFrom ?? DateTimeOffset.UnixEpoch;
        var runs = sieve.ReferenceEveryRuns is null ? 0 : await data.Runs.CountAsync(run => run.StartedAt > from && run.Sieves.Any(used => used.SieveId == sieve.Id), cancellation);
        var day = (await SettingsKeeping.OfAsync(data, cancellation)).LocalDay(from);
        return new ReferenceDue(sieve.ReferenceEveryDays, sieve.ReferenceEveryRuns, last, sieve.ReferenceEveryDays is { } days ? day.AddDays(days) : null, runs);
    }

    /// <summary>The sieves in service whose check is overdue or near.</summary>
    internal static async Task<Dictionary<Guid, ReferenceDue>> NearAsync(LaboratoryContext data, DateOnly today, CancellationToken cancellation)
    {
        var near = new Dictionary<Guid, ReferenceDue>();
        foreach (var sieve in await data.TestSieves.AsNoTracking().Where(one => one.State == EquipmentState.InService && (one.ReferenceEveryDays != null || one.ReferenceEveryRuns != null)).ToListAsync(cancellation))
        {
            if (await OfAsync(data, sieve, cancellation) is { } due && due.IsNear(today))
            {
                near[sieve.Id] = due;
            }
        }

        return near;
    }
}
