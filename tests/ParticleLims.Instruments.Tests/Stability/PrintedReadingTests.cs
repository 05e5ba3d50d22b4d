using ParticleLims.Analysis.Quantities;
using ParticleLims.Instruments.Readings;
using ParticleLims.Instruments.Stability;
using Shouldly;
using Xunit;

namespace ParticleLims.Instruments.Tests.Stability;

/// <summary>A balance that sends one line for each press of its print key.</summary>
public sealed class PrintedReadingTests
{
    private static readonly DateTimeOffset Start = new(2026, 3, 2, 8, 15, 0, TimeSpan.Zero);
    private static readonly StableReadingRules Rules = new() { PanMustReturnToZero = true };

    [Fact]
    public void One_stable_print_may_be_taken_and_counts_for_a_while_only()
    {
        var watch = new StableReadingWatch(Rules);
        var print = Print(0, 300m);
        watch.Observe(print).Ready.ShouldBeSameAs(print);
        watch.At(Start.AddSeconds(19)).Ready.ShouldBeSameAs(print);
        watch.At(Start.AddSeconds(21)).WaitsFor.ShouldBe(WaitReason.Reading);
    }

    [Fact]
    public void A_print_that_was_taken_is_used_up()
    {
        var watch = new StableReadingWatch(Rules);
        watch.Observe(Print(0, 300m));
        watch.Taken();
        watch.At(Start.AddSeconds(1)).ShouldBe(new WatchProgress(WaitReason.Reading, 0, null));
    }

    [Fact]
    public void The_same_mass_again_waits_for_a_person_and_another_mass_does_not()
    {
        var watch = new StableReadingWatch(Rules);
        watch.Observe(Print(0, 300m));
        watch.Taken();
        watch.Observe(Print(5_000, 300.001m)).ShouldSatisfyAllConditions(
            progress => progress.WaitsFor.ShouldBe(WaitReason.AnotherLoad),
            progress => progress.Ready.ShouldBeNull(),
            progress => progress.Latest.ShouldNotBeNull());
        watch.Observe(Print(8_000, 310m)).Ready.ShouldNotBeNull();
    }

    [Fact]
    public void An_empty_pan_that_was_printed_is_never_taken_and_lets_the_same_mass_follow()
    {
        var watch = new StableReadingWatch(Rules);
        watch.Observe(Print(0, 300m));
        watch.Taken();
        watch.Observe(Print(3_000, 0.001m)).WaitsFor.ShouldBe(WaitReason.Load);
        watch.Observe(Print(6_000, 300m)).Ready.ShouldNotBeNull();
    }

    [Fact]
    public void After_a_reload_the_last_weighing_is_known_and_where_it_is_not_a_person_decides()
    {
        new StableReadingWatch(Rules, lastLoadMayBeOnPan: true, Mass.FromGrams(300m)).Observe(Print(0, 300m)).WaitsFor.ShouldBe(WaitReason.AnotherLoad);
        new StableReadingWatch(Rules, lastLoadMayBeOnPan: true, Mass.FromGrams(300m)).Observe(Print(0, 310m)).Ready.ShouldNotBeNull();
        new StableReadingWatch(Rules, lastLoadMayBeOnPan: true).Observe(Print(0, 310m)).WaitsFor.ShouldBe(WaitReason.AnotherLoad);
    }

    [Fact]
    public void An_unstable_print_is_never_taken()
    {
        var watch = new StableReadingWatch(Rules);
        watch.Observe(Print(0, 300m, stable: false)).WaitsFor.ShouldBe(WaitReason.Stability);
    }

    [Fact]
    public void A_format_of_prints_marks_its_readings_and_is_neither_asked_nor_lost_by_silence()
    {
        var format = PlainLine.Format with { EachLineIsPrint = true, SilenceLimit = null };
        format.Problems().ShouldBeEmpty();
        format.Parse(PlainLine.Write(Mass.FromGrams(1m), 4, true, "0417", checksum: false), Start).ShouldBeOfType<BalanceReading>().IsPrint.ShouldBeTrue();
        (format with { SilenceLimit = TimeSpan.FromSeconds(5) }).Problems().ShouldNotBeEmpty();
        (format with { RequestCommand = "P", RequestEvery = TimeSpan.FromSeconds(1) }).Problems().ShouldNotBeEmpty();
    }

    private static BalanceReading Print(int milliseconds, decimal grams, bool stable = true) =>
        new(Mass.FromGrams(grams), 3, Mass.FromMicrograms(1_000), stable, "P", Start.AddMilliseconds(milliseconds), null) { IsPrint = true };
}
