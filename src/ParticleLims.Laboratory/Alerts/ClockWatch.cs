using System.Globalization;
using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Alerts;

/// <summary>
/// Compares the server's clock with the time that really went by (the monotonic clock of the machine), and at the start with the last event of the record. A jump is an alert; the order of the record is that of its
/// numbers and never follows the clock.
/// </summary>
public sealed class ClockWatch(IDbContextFactory<LaboratoryContext> contexts, AlertRaising raising, TimeProvider clock)
{
    private (DateTimeOffset At, long Stamp)? before;

    /// <summary>Looks; answers how far the clock jumped since it looked last, null when it did not.</summary>
    public async Task<TimeSpan?> LookAsync(CancellationToken cancellation)
    {
        var (now, stamp) = (clock.GetUtcNow(), clock.GetTimestamp());
        await using var data = await contexts.CreateDbContextAsync(cancellation);
        var limit = TimeSpan.FromSeconds((await data.AlertRulesAsync(cancellation)).Limits.ClockStepSeconds);
        var step = before is { } last ? now - last.At - clock.GetElapsedTime(last.Stamp, stamp) : await BehindTheRecordAsync(data, now, cancellation);
        if (step.Duration() >= limit && before is { } seen)
        {
            await raising.RaiseAsync(AlertKind.ClockStep, $"The server's clock jumped {Words(step)} between {RecordChain.InstantText(seen.At)} and {RecordChain.InstantText(now)}: it was set, or the machine stood still. Times around then may be wrong; the order of the record is that of its numbers.", Guid.Empty, TimeSpan.Zero, cancellation);
        }
        else if (step.Duration() >= limit)
        {
            await raising.RaiseAsync(AlertKind.ClockStep, $"The program started at {RecordChain.InstantText(now)}, {Words(step)} from the last event of the record: the clock is behind, or was ahead before. The order of the record is that of its numbers.", Guid.Empty, TimeSpan.Zero, cancellation);
        }

        // Only now: when the alert could not be raised, the next look sees the same jump.
        before = (now, stamp);
        return step.Duration() >= limit ? step : null;
    }

    // A clock that stands before the last event was set back while the program was off, or forward while it wrote.
    private static async Task<TimeSpan> BehindTheRecordAsync(LaboratoryContext data, DateTimeOffset now, CancellationToken cancellation) =>
        await data.Events.AsNoTracking().OrderByDescending(one => one.Sequence).Select(one => (DateTimeOffset?)one.At).FirstOrDefaultAsync(cancellation) is { } last && last > now ? now - last : TimeSpan.Zero;

    private static string Words(TimeSpan step) => string.Create(CultureInfo.InvariantCulture, $"{step.Duration():d\\.hh\\:mm\\:ss} {(step < TimeSpan.Zero ? "back" : "forward")}");
}
