using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.DependencyInjection;
using ParticleLims.Laboratory.Alerts;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Laboratory.Tests.Alerts;

public sealed class ClockWatchTests
{
    [Theory]
    [EachDatabase]
    public async Task A_clock_set_two_hours_back_or_forward_during_a_run_is_an_alert_and_the_record_keeps_its_order(DatabaseKind kind)
    {
        await using var opened = await OpenedSmallLaboratory.OpenAsync(kind);
        var (running, clock) = (opened.Running, new LooseClock(opened.Running.Clock));
        var watch = ActivatorUtilities.CreateInstance<ClockWatch>(running.Services, clock);
        running.Clock.Advance(TimeSpan.FromHours(5));
        (await watch.LookAsync(default)).ShouldBeNull();
        var lot = await opened.Small.BookInAsync(opened.Small.Calcite);
        await opened.Small.ReadCautionsAsync(opened.Small.People.Technician);
        await opened.Small.Bench().StartAsync(lot.RunId, lot.Method);
        foreach (var hours in new[] { -2, 2 })
        {
            running.Clock.AdjustTime(running.Clock.GetUtcNow().AddHours(hours));
            (await watch.LookAsync(default)).ShouldBe(TimeSpan.FromHours(hours));
            await opened.Small.BookInAsync(opened.Small.Starch);
        }

        var alerts = await running.Get<AlertKeeping>().RecentAsync(opened.Small.People.Administrator.Actor, 10, default);
        alerts.Select(alert => alert.Words).ShouldBe([
            "The server's clock jumped 0.02:00:00 forward between 2026-03-02T11:00:00.000000Z and 2026-03-02T13:00:00.000000Z: it was set, or the machine stood still. Times around then may be wrong; the order of the record is that of its numbers.",
            "The server's clock jumped 0.02:00:00 back between 2026-03-02T13:00:00.000000Z and 2026-03-02T11:00:00.000000Z: it was set, or the machine stood still. Times around then may be wrong; the order of the record is that of its numbers."]);
        await using var data = running.Data();
        var events = await data.Events.AsNoTracking().OrderBy(one => one.Sequence).ToListAsync();
        events.Select(one => one.Sequence).ShouldBe(Enumerable.Range(1, events.Count).Select(number => (long)number));
        events.Zip(events.Skip(1)).ShouldContain(pair => pair.Second.At < pair.First.At, "the times did go back");
        (await RecordVerifier.VerifyAsync(data, null, default)).Fault.ShouldBeNull();
    }

    [Theory]
    [EachDatabase]
    public async Task Time_that_goes_by_is_no_jump_and_neither_is_a_small_correction(DatabaseKind kind)
    {
        await using var opened = await OpenedSmallLaboratory.OpenAsync(kind);
        var clock = new LooseClock(opened.Running.Clock);
        var watch = ActivatorUtilities.CreateInstance<ClockWatch>(opened.Running.Services, clock);
        await watch.LookAsync(default);
        opened.Running.Clock.Advance(TimeSpan.FromHours(9));
        clock.GoneBy += TimeSpan.FromHours(9);
        (await watch.LookAsync(default)).ShouldBeNull();
        opened.Running.Clock.AdjustTime(opened.Running.Clock.GetUtcNow().AddSeconds(-5));
        (await watch.LookAsync(default)).ShouldBeNull();
    }

    [Theory]
    [EachDatabase]
    public async Task A_program_that_starts_before_the_last_event_of_its_record_says_so(DatabaseKind kind)
    {
        await using var opened = await OpenedSmallLaboratory.OpenAsync(kind);
        opened.Running.Clock.AdjustTime(opened.Running.Clock.GetUtcNow().AddDays(-1));
        var started = ActivatorUtilities.CreateInstance<ClockWatch>(opened.Running.Services);
        (await started.LookAsync(default)).ShouldBe(TimeSpan.FromDays(-1));
        (await opened.Running.Get<AlertKeeping>().RecentAsync(opened.Small.People.Administrator.Actor, 10, default)).ShouldHaveSingleItem().Words.ShouldContain("1.00:00:00 back from the last event of the record");
    }

    /// <summary>A wall clock that is set and a monotonic clock that goes on by itself, as a machine has them.</summary>
    private sealed class LooseClock(TimeProvider wall) : TimeProvider
    {
        /// <summary>The time that really went by.</summary>
        public TimeSpan GoneBy { get; set; }

        public override long TimestampFrequency => TimeSpan.TicksPerSecond;

        public override DateTimeOffset GetUtcNow() => wall.GetUtcNow();

        public override long GetTimestamp() => GoneBy.Ticks;
    }
}
