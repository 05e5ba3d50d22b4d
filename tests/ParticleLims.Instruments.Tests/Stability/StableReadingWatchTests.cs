using ParticleLims.Analysis.Quantities;
using ParticleLims.Instruments.Readings;
using ParticleLims.Instruments.Stability;
using Shouldly;
using Xunit;

namespace ParticleLims.Instruments.Tests.Stability;

public sealed class StableReadingWatchTests
{
    private static readonly DateTimeOffset Start = new(2026, 3, 2, 8, 15, 0, TimeSpan.Zero);
    private static readonly StableReadingRules Rules = new();
    private static readonly StableReadingRules Returning = new() { PanMustReturnToZero = true };

    [Fact]
    public void A_reading_may_be_taken_once_it_was_stable_for_the_whole_time_and_the_bar_tells_how_far_it_is()
    {
        var watch = new StableReadingWatch(Rules);
        watch.At(Start).WaitsFor.ShouldBe(WaitReason.Reading);
        watch.Observe(Line(0, 300m)).ShouldSatisfyAllConditions(
            progress => progress.WaitsFor.ShouldBe(WaitReason.Hold),
            progress => progress.Fraction.ShouldBe(0),
            progress => progress.Ready.ShouldBeNull());
        watch.Observe(Line(500, 300m)).Fraction.ShouldBe(1 / 3.0, 1e-9);
        watch.Observe(Line(1000, 300m)).Ready.ShouldBeNull();
        watch.Observe(Line(1499, 300m)).Ready.ShouldBeNull();

        var last = Line(1500, 300.0001m);
        var ready = watch.Observe(last);

        ready.Fraction.ShouldBe(1);
        ready.Ready.ShouldBeSameAs(last);
    }

    [Fact]
    public void One_unstable_line_begins_the_hold_anew()
    {
        var watch = new StableReadingWatch(Rules);
        Hold(watch, 0, 1400, 300m).Ready.ShouldBeNull();
        var unstable = watch.Observe(Line(1450, 300m, stable: false));
        unstable.WaitsFor.ShouldBe(WaitReason.Stability);
        unstable.Fraction.ShouldBe(0);
        Hold(watch, 1500, 2900, 300m).Ready.ShouldBeNull();
        Hold(watch, 3000, 3000, 300m).Ready.ShouldNotBeNull();
    }

    [Fact]
    public void One_refused_line_begins_the_hold_anew_and_is_told()
    {
        var watch = new StableReadingWatch(Rules);
        Hold(watch, 0, 1400, 300m);
        var refused = new RejectedLine(RejectionCode.Overload, "overload", "O", Start.AddMilliseconds(1450));
        watch.Observe(refused).ShouldBe(new WatchProgress(WaitReason.ReadableLine, 0, null, refused));
        Hold(watch, 1500, 2900, 300m).Ready.ShouldBeNull();
    }

    [Fact]
    public void Readings_that_creep_further_than_the_spread_are_not_taken_even_if_called_stable()
    {
        var watch = new StableReadingWatch(Rules with { Spread = Mass.FromMicrograms(1_000) });
        for (var i = 0; i < 100; i++)
        {
            watch.Observe(Line(i * 100, 300m + (i * 0.0002m))).Ready.ShouldBeNull();
        }
    }

    [Fact]
    public void Without_a_set_spread_two_steps_of_the_last_digit_are_allowed_and_three_are_not()
    {
        var watch = new StableReadingWatch(Rules);
        Hold(watch, 0, 1400, 300m);
        watch.Observe(Line(1500, 300.0002m)).Ready.ShouldNotBeNull();
        watch.Observe(Line(1600, 300.0003m)).Fraction.ShouldBe(0);
    }

    [Fact]
    public void A_gap_in_the_lines_begins_the_hold_anew()
    {
        var watch = new StableReadingWatch(Rules);
        watch.Observe(Line(0, 300m));
        watch.Observe(Line(1000, 300m)).Fraction.ShouldBeGreaterThan(0);
        watch.Observe(Line(2001, 300m)).Fraction.ShouldBe(0);
    }

    [Fact]
    public void Time_that_runs_backwards_begins_the_hold_anew()
    {
        var watch = new StableReadingWatch(Rules);
        Hold(watch, 0, 1400, 300m);
        watch.Observe(Line(1300, 300m)).Fraction.ShouldBe(0);
    }

    [Fact]
    public void A_reading_that_has_grown_old_is_no_longer_ready()
    {
        var watch = new StableReadingWatch(Rules);
        Hold(watch, 0, 1500, 300m).Ready.ShouldNotBeNull();
        watch.At(Start.AddMilliseconds(2500)).Ready.ShouldNotBeNull();
        watch.At(Start.AddMilliseconds(2501)).ShouldBe(new WatchProgress(WaitReason.Reading, 0, null));
    }

    [Fact]
    public void A_lost_link_ends_the_hold()
    {
        var watch = new StableReadingWatch(Rules);
        Hold(watch, 0, 1500, 300m);
        watch.LinkLost();
        watch.At(Start.AddMilliseconds(1500)).WaitsFor.ShouldBe(WaitReason.Reading);
        watch.Observe(Line(1600, 300m)).Ready.ShouldBeNull();
    }

    [Fact]
    public void After_a_weighing_the_same_load_is_not_taken_again_until_the_pan_was_seen_empty_and_stable()
    {
        var watch = new StableReadingWatch(Returning);
        Hold(watch, 0, 1500, 300m).Ready.ShouldNotBeNull();
        watch.Taken();
        Hold(watch, 1600, 5000, 300m).WaitsFor.ShouldBe(WaitReason.ClearedPan);
        watch.Observe(Line(5100, 0.01m, stable: false)).WaitsFor.ShouldBe(WaitReason.ClearedPan);
        watch.Observe(Line(5200, -0.05m)).WaitsFor.ShouldBe(WaitReason.Load);
        Hold(watch, 5300, 6700, 310m).Ready.ShouldBeNull();
        Hold(watch, 6800, 6800, 310m).Ready.ShouldNotBeNull().Mass.Grams.ShouldBe(310m);
    }

    [Fact]
    public void An_empty_pan_is_never_taken_where_it_must_return_to_zero()
    {
        var watch = new StableReadingWatch(Returning);
        Hold(watch, 0, 5000, 0.05m).ShouldSatisfyAllConditions(
            progress => progress.Ready.ShouldBeNull(),
            progress => progress.WaitsFor.ShouldBe(WaitReason.Load));
        Hold(watch, 5100, 6600, 0.0501m).Ready.ShouldNotBeNull();
    }

    [Fact]
    public void A_page_opened_anew_can_wait_for_the_pan_to_be_cleared_first()
    {
        var watch = new StableReadingWatch(Returning, lastLoadMayBeOnPan: true);
        Hold(watch, 0, 3000, 300m).WaitsFor.ShouldBe(WaitReason.ClearedPan);
    }

    [Fact]
    public void Without_the_pan_rule_the_next_hold_follows_at_once()
    {
        var watch = new StableReadingWatch(Rules);
        Hold(watch, 0, 1500, 300m).Ready.ShouldNotBeNull();
        watch.Taken();
        watch.At(Start.AddMilliseconds(1500)).Ready.ShouldBeNull();
        Hold(watch, 1600, 3100, 300m).Ready.ShouldNotBeNull();
    }

    [Fact]
    public void Rules_that_could_never_be_met_are_refused()
    {
        var bad = new StableReadingRules
        {
            HoldFor = TimeSpan.FromSeconds(-1),
            LongestGap = TimeSpan.Zero,
            NearZero = Mass.FromMicrograms(-1),
        };
        bad.Problems().Count.ShouldBe(3);
        Should.Throw<ArgumentException>(() => new StableReadingWatch(bad));
    }

    private static WatchProgress Hold(StableReadingWatch watch, int from, int to, decimal grams)
    {
        var progress = watch.Observe(Line(from, grams));
        for (var at = from + 100; at <= to; at += 100)
        {
            progress = watch.Observe(Line(at, grams));
        }

        return progress;
    }

    private static BalanceReading Line(int milliseconds, decimal grams, bool stable = true) =>
        new(Mass.FromGrams(grams), 4, Mass.FromMicrograms(100), stable, "line", Start.AddMilliseconds(milliseconds), "0417");
}
