using ParticleLims.Analysis.Quantities;
using ParticleLims.Analysis.Sieves.Tares;
using ParticleLims.Analysis.Tests.Statistics;

namespace ParticleLims.Analysis.Tests.Sieves.Tares;

/// <summary>By simulation with a seeded generator: a sieve of 300 g, weighed with a repeatability of 3 mg.</summary>
public sealed class TareHistoryTests
{
    private const double Tare = 300_000_000;
    private static readonly Mass Repeatability = Mass.FromMicrograms(3_000);

    /// <summary>4 000 sieves of 100 weighings each.</summary>
    [Fact]
    public void A_sound_sieve_raises_less_than_one_false_alarm_in_five_hundred_weighings()
    {
        var random = new Normals(1);
        var alarms = Enumerable.Range(0, 4_000).Sum(_ => TareHistory.Findings(History(random, 100, _ => 0), Repeatability).Length);
        alarms.ShouldBeLessThan(4_000 * 100 / 500);
        alarms.ShouldBeGreaterThan(0, "a watch that never errs sleeps");
    }

    /// <summary>20 mg are 6.7 times the repeatability. Of 4 000 sieves, with the step after 5 to 60 weighings, 99 % are found within two weighings, and named.</summary>
    [Theory]
    [InlineData(20_000, TareChange.Residue)]
    [InlineData(-20_000, TareChange.Damage)]
    public void A_step_of_twenty_milligrams_is_found_within_two_weighings(double step, TareChange change)
    {
        var random = new Normals(2);
        var found = 0;
        const int Sieves = 4_000;
        for (var i = 0; i < Sieves; i++)
        {
            var at = 5 + (i % 56);
            found += TareHistory.Findings(History(random, at + 2, j => j >= at ? step : 0), Repeatability).Any(finding => finding.Index >= at && finding.Change == change) ? 1 : 0;
        }

        ((double)found / Sieves).ShouldBeGreaterThan(0.99);
    }

    /// <summary>0.5 mg at each weighing, a sixth of the repeatability: found within 40 weighings, and as a slow change, not as a step.</summary>
    [Theory]
    [InlineData(-500, TareChange.Wear)]
    [InlineData(500, TareChange.Blinding)]
    public void A_slow_change_is_told_from_a_step(double perWeighing, TareChange change)
    {
        var random = new Normals(3);
        int right = 0, wrong = 0;
        const int Sieves = 2_000;
        for (var i = 0; i < Sieves; i++)
        {
            var first = TareHistory.Findings(History(random, 40, j => j * perWeighing), Repeatability).FirstOrDefault();
            right += first?.Change == change ? 1 : 0;
            wrong += first is not null && first.Change != change ? 1 : 0;
        }

        ((double)right / Sieves).ShouldBeGreaterThan(0.95);
        ((double)wrong / Sieves).ShouldBeLessThan(0.04);
    }

    [Fact]
    public void A_finding_says_how_much_and_since_when()
    {
        var step = TareHistory.Findings(Weighings(0, 1, -1, 0, 30), Repeatability).ShouldHaveSingleItem();
        step.Index.ShouldBe(4);
        step.Amount.ShouldBe(Mass.FromMicrograms(30_000));
        step.Words.ShouldBe("The sieve gained 30.0 mg at once: it looks as if something stayed on it.");
        var wear = TareHistory.Findings(Weighings([.. Enumerable.Range(0, 40).Select(i => -1.0 * i)]), Repeatability)[0];
        wear.Change.ShouldBe(TareChange.Wear);
        wear.Words.ShouldStartWith("The sieve lost ");
        wear.Words.ShouldEndWith(" mg slowly, since weighing 1: it looks like wear.");
    }

    [Fact]
    public void After_a_step_the_new_mass_is_the_right_one() =>
        TareHistory.Findings(Weighings([.. Enumerable.Repeat(0.0, 10), .. Enumerable.Repeat(25.0, 30)]), Repeatability).Length.ShouldBe(1);

    [Fact]
    public void Losses_and_gains_mirror_each_other_and_the_mass_of_the_sieve_does_not_matter()
    {
        var random = new Normals(4);
        for (var i = 0; i < 200; i++)
        {
            var drift = History(random, 60, j => j * 300);
            var mirrored = drift.Select(mass => Mass.FromMicrograms((2 * (long)Tare) - mass.Micrograms)).ToList();
            var heavier = drift.Select(mass => Mass.FromMicrograms(mass.Micrograms + 100_000_000)).ToList();
            var indices = TareHistory.Findings(drift, Repeatability).Select(finding => finding.Index).ToList();
            TareHistory.Findings(mirrored, Repeatability).Select(finding => finding.Index).ShouldBe(indices);
            TareHistory.Findings(heavier, Repeatability).Select(finding => finding.Index).ShouldBe(indices);
        }
    }

    [Fact]
    public void No_weighing_and_one_weighing_tell_nothing()
    {
        TareHistory.Findings([], Repeatability).ShouldBeEmpty();
        TareHistory.Findings(Weighings(5), Repeatability).ShouldBeEmpty();
    }

    [Fact]
    public void A_watch_without_a_repeatability_or_with_wild_settings_is_refused()
    {
        Should.Throw<ArgumentOutOfRangeException>(() => TareHistory.Findings([], Mass.Zero));
        Should.Throw<ArgumentException>(() => TareHistory.Findings([], Repeatability, new TareSettings { Weight = double.NaN }));
        Should.Throw<ArgumentException>(() => TareHistory.Findings([], Repeatability, new TareSettings { BaselineCount = 1 }));
    }

    private static List<Mass> History(Normals random, int count, Func<int, double> change) =>
        Enumerable.Range(0, count).Select(i => Mass.FromMicrograms((long)Math.Round(Tare + change(i) + (3_000 * random.Next())))).ToList();

    private static List<Mass> Weighings(params double[] milligrams) => [.. milligrams.Select(change => Mass.FromMicrograms((long)(Tare + (1_000 * change))))];
}
