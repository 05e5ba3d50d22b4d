using Microsoft.Extensions.Time.Testing;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Instruments.Readings;
using ParticleLims.Instruments.Simulation;
using Shouldly;
using Xunit;

namespace ParticleLims.Instruments.Tests.Simulation;

public sealed class SettlingTests
{
    private static readonly Mass Sieve = Mass.FromGrams(312.345m);

    private static readonly SimulatedBalanceOptions Bench = new()
    {
        Readability = Mass.FromMicrograms(100),
        Capacity = Mass.FromGrams(1_000m),
        SettleTime = TimeSpan.FromSeconds(2),
        LineEvery = null,
    };

    [Theory]
    [InlineData(0.0002)]
    [InlineData(0.5)]
    [InlineData(312.345)]
    [InlineData(999.9)]
    public async Task Any_load_is_unstable_first_and_then_stable_within_a_step_of_the_load_in_time(double grams)
    {
        var (clock, load) = (new FakeTimeProvider(), Mass.FromGrams((decimal)grams));
        await using var balance = SimulatedBalance.Start(Bench with { DriftPerHour = Mass.Zero }, clock);
        Read(balance).ShouldBeOfType<BalanceReading>().Stable.ShouldBeTrue();
        balance.LoadPan(load);
        Read(balance).ShouldBeOfType<BalanceReading>().Stable.ShouldBeFalse();
        clock.Advance(TimeSpan.FromSeconds(2));

        for (var i = 0; i < 200; i++)
        {
            clock.Advance(TimeSpan.FromMilliseconds(100));
            var reading = Read(balance).ShouldBeOfType<BalanceReading>();
            reading.Stable.ShouldBeTrue();
            Math.Abs((reading.Mass - load).Micrograms).ShouldBeLessThanOrEqualTo(100);
        }
    }

    [Fact]
    public async Task While_settling_the_shown_mass_swings_over_the_load_and_is_never_called_stable_far_from_it()
    {
        var clock = new FakeTimeProvider();
        await using var balance = SimulatedBalance.Start(Bench, clock);
        balance.LoadPan(Sieve);
        List<BalanceReading> readings = [];
        for (var i = 0; i < 200; i++)
        {
            clock.Advance(TimeSpan.FromMilliseconds(10));
            readings.Add(Read(balance).ShouldBeOfType<BalanceReading>());
        }

        readings.Max(reading => reading.Mass.Grams).ShouldBeInRange(Sieve.Grams * 1.01m, Sieve.Grams * 1.10m);
        readings.Where(reading => reading.Stable).ShouldAllBe(reading => Math.Abs((reading.Mass - Sieve).Micrograms) <= 200);
        readings.Count(reading => !reading.Stable).ShouldBeGreaterThan(100);
    }

    [Fact]
    public async Task The_speed_factor_shortens_settling()
    {
        var clock = new FakeTimeProvider();
        await using var balance = SimulatedBalance.Start(Bench with { SpeedFactor = 20 }, clock);
        balance.LoadPan(Sieve);
        clock.Advance(TimeSpan.FromMilliseconds(100));
        Read(balance).ShouldBeOfType<BalanceReading>().Stable.ShouldBeTrue();
    }

    [Fact]
    public async Task The_same_seed_trembles_the_same_way_and_another_does_not()
    {
        var (one, same, other) = (await Tremble(1), await Tremble(1), await Tremble(2));
        same.ShouldBe(one);
        other.ShouldNotBe(one);
        one.Distinct(StringComparer.Ordinal).Count().ShouldBeGreaterThan(2);
    }

    [Fact]
    public async Task A_loaded_balance_drifts_and_an_empty_one_holds_its_zero()
    {
        var clock = new FakeTimeProvider();
        await using var balance = SimulatedBalance.Start(Bench with { NoiseSteps = 0, DriftPerHour = Mass.FromMicrograms(1_000) }, clock);
        clock.Advance(TimeSpan.FromHours(5));
        Shown(balance).ShouldBe(0);
        balance.LoadPan(Sieve);
        clock.Advance(TimeSpan.FromHours(3));
        Shown(balance).ShouldBe(Sieve.Micrograms + 3_000);
    }

    [Fact]
    public async Task A_knock_makes_it_unstable_for_a_while_and_changes_nothing_for_good()
    {
        var clock = new FakeTimeProvider();
        await using var balance = SimulatedBalance.Start(Bench with { NoiseSteps = 0, DriftPerHour = default }, clock);
        balance.LoadPan(Sieve);
        clock.Advance(TimeSpan.FromSeconds(3));
        balance.Disturb();
        Read(balance).ShouldBeOfType<BalanceReading>().Stable.ShouldBeFalse();
        Shown(balance).ShouldNotBe(Sieve.Micrograms);
        clock.Advance(TimeSpan.FromSeconds(2));
        Read(balance).ShouldBeOfType<BalanceReading>().Stable.ShouldBeTrue();
        Shown(balance).ShouldBe(Sieve.Micrograms);
    }

    [Fact]
    public async Task A_tared_balance_shows_the_net_mass_and_still_guards_the_gross_capacity()
    {
        var clock = new FakeTimeProvider();
        await using var balance = SimulatedBalance.Start(Bench with { NoiseSteps = 0, DriftPerHour = default }, clock);
        balance.LoadPan(Sieve);
        clock.Advance(TimeSpan.FromSeconds(3));
        balance.Tare();
        Shown(balance).ShouldBe(0);
        balance.ClearPan();
        clock.Advance(TimeSpan.FromSeconds(3));
        Shown(balance).ShouldBe(-Sieve.Micrograms);
        balance.LoadPan(Mass.FromGrams(1_000.001m));
        clock.Advance(TimeSpan.FromSeconds(3));
        Read(balance).ShouldBeOfType<RejectedLine>().Code.ShouldBe(RejectionCode.Overload);
        balance.Zero().ShouldBeFalse();
        balance.ClearPan();
        clock.Advance(TimeSpan.FromSeconds(3));
        balance.Zero().ShouldBeTrue();
        Shown(balance).ShouldBe(0);
    }

    [Theory]
    [InlineData(1_000, 3)]
    [InlineData(100, 4)]
    [InlineData(500, 4)]
    [InlineData(10, 5)]
    [InlineData(1_000_000, 0)]
    public async Task The_line_shows_the_digits_of_the_readability_in_its_steps(int micrograms, int decimals)
    {
        var options = Bench with { Readability = Mass.FromMicrograms(micrograms), NoiseSteps = 3 };
        var clock = new FakeTimeProvider();
        await using var balance = SimulatedBalance.Start(options, clock);
        for (var i = 0; i < 50; i++)
        {
            var reading = Read(balance).ShouldBeOfType<BalanceReading>();
            reading.Decimals.ShouldBe(decimals);
            (reading.Mass.Micrograms % micrograms).ShouldBe(0);
        }
    }

    [Fact]
    public void Options_that_make_no_balance_are_refused_in_words()
    {
        var bad = new SimulatedBalanceOptions
        {
            Serial = "a b",
            Readability = Mass.FromMicrograms(3),
            Capacity = Mass.Zero,
            SettleTime = TimeSpan.Zero,
            NoiseSteps = double.NaN,
            SpeedFactor = double.PositiveInfinity,
            LineEvery = TimeSpan.Zero,
        };
        bad.Problems().Count.ShouldBe(7, string.Join('\n', bad.Problems()));
        Should.Throw<ArgumentException>(() => SimulatedBalance.Start(bad, TimeProvider.System));
        new SimulatedBalanceOptions { Readability = Mass.FromMicrograms(1), Capacity = Mass.FromGrams(20_000) }
            .Problems().ShouldHaveSingleItem().ShouldContain("eleven");
    }

    private static async Task<string[]> Tremble(int seed)
    {
        var clock = new FakeTimeProvider();
        await using var balance = SimulatedBalance.Start(Bench with { Seed = seed, NoiseSteps = 1 }, clock);
        return [.. Enumerable.Range(0, 50).Select(_ => balance.CurrentLine())];
    }

    private static BalanceLine Read(SimulatedBalance balance) => balance.Options.Format.Parse(balance.CurrentLine(), DateTimeOffset.UnixEpoch);

    private static long Shown(SimulatedBalance balance) => Read(balance).ShouldBeOfType<BalanceReading>().Mass.Micrograms;
}
