using System.Globalization;
using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Equipment;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Settings;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Balances;

/// <summary>When the repeatability of a balance is to be tested again.</summary>
/// <param name="EveryDays">After how many days.</param>
/// <param name="LastAt">Its last test; null where there was none yet.</param>
/// <param name="DueOn">The last day on which it still counts.</param>
public sealed record RepeatabilityDue(int EveryDays, DateTimeOffset? LastAt, DateOnly DueOn)
{
    /// <summary>Whether it has to be tested before the balance is used.</summary>
    public bool IsOverdue(DateOnly today) => DueOn < today;

    /// <summary>Whether it falls due within <see cref="EquipmentDues.DaysAhead"/> days.</summary>
    public bool IsNear(DateOnly today) => DueOn <= today.AddDays(EquipmentDues.DaysAhead);

    /// <summary>When, in words: "repeatability test due 2026-12-01".</summary>
    public string Words(DateOnly today) => string.Create(CultureInfo.InvariantCulture, $"repeatability test {(IsOverdue(today) ? "overdue since" : "due")} {DueOn:yyyy-MM-dd}");

    /// <summary>Refuses an interval after which nothing would ever be tested, or everything always.</summary>
    /// <exception cref="RefusedException">Says so.</exception>
    internal static void Require(int? days)
    {
        if (days is < 1 or > 1_100)
        {
            throw new RefusedException("repeatability-interval", "The repeatability is tested after 1 to 1100 days, or on no set day.", "repeatEveryDays");
        }
    }

    /// <summary>When that of a balance falls due; null where it is asked on no day.</summary>
    internal static async Task<RepeatabilityDue?> OfAsync(LaboratoryContext data, Balance balance, CancellationToken cancellation)
    {
        if (balance.RepeatEveryDays is not { } days)
        {
            return null;
        }

        var last = await data.Set<RepeatabilityTest>().AsNoTracking().Where(test => test.BalanceId == balance.Id).OrderByDescending(test => test.At).Select(test => (DateTimeOffset?)test.At).FirstOrDefaultAsync(cancellation);
        var from = last ?? balance.RepeatFrom ?? DateTimeOffset.UnixEpoch;
        return new RepeatabilityDue(days, last, (await SettingsKeeping.OfAsync(data, cancellation)).LocalDay(from).AddDays(days));
    }

    /// <summary>Why a balance must not be used: its test is overdue; null where it is not.</summary>
    internal string? Unfit(Balance balance, DateOnly today) => IsOverdue(today)
        ? string.Create(CultureInfo.InvariantCulture, $"The repeatability of the {balance.Label} was due for its test on {DueOn:yyyy-MM-dd}. Take another one; the laboratory manager can test it.")
        : null;
}
