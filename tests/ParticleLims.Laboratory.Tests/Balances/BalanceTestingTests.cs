using Microsoft.EntityFrameworkCore;
using ParticleLims.Analysis.Balances;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Laboratory.Balances;
using ParticleLims.Laboratory.Equipment;

namespace ParticleLims.Laboratory.Tests.Balances;

/// <summary>The daily check with its questions and its weight, also keyed by hand; the repeatability of ten weighings and the minimum weight that follows.</summary>
public sealed class BalanceTestingTests
{
    private static readonly CheckCircumstances Seen = new(Level: true, WarmedUp: true, null);
    private static readonly WeightCertificate Certificate = new("K-77", new DateOnly(2026, 1, 5), Mass.FromMicrograms(100_000_400), Mass.FromMicrograms(100), "S-12", new DateOnly(2028, 1, 5));

    [Theory]
    [EachDatabase]
    public async Task A_display_is_keyed_twice_where_the_laboratory_allows_it_and_the_check_says_so(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (small, testing) = (laboratory.Small, laboratory.Get<BalanceTesting>());
        await laboratory.ShouldRefuseAsync("keying-off", () => KeyAsync("100.000", "100.000"));
        await small.AllowKeyingAsync();
        await laboratory.ShouldRefuseAsync("keyed-differs", () => KeyAsync("100.000", "100.001"));
        await laboratory.ShouldRefuseAsync("keyed-form", () => KeyAsync("100", "100"));
        (await KeyAsync("100.001", "100.001")).ShouldBeTrue();
        await using var data = laboratory.Data();
        var kept = await data.BalanceChecks.SingleAsync(check => check.WayIn == WayIn.KeyedByHand);
        (kept.Shown, kept.RawLine, kept.LevelSeen).ShouldBe((Mass.FromGrams(100.001m), "keyed by hand, twice: 100.001 g", true));
        (await KeyAsync("100.004", "100.004")).ShouldBeFalse();
        (await data.Balances.SingleAsync(balance => balance.Id == small.BalanceId)).State.ShouldBe(EquipmentState.OutOfService);

        Task<bool> KeyAsync(string first, string second) => testing.CheckKeyedAsync(small.People.Technician.Actor, small.BalanceId, new KeyedMass(first, second, null), Seen, null, default);
    }

    [Theory]
    [EachDatabase]
    public async Task A_balance_that_is_not_level_or_cold_is_not_checked_and_a_weight_counts_with_its_own_mass_and_date(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        await laboratory.ShouldRefuseAsync("balance-not-ready", () => CheckAsync(100m, Seen with { Level = false }));
        await laboratory.ShouldRefuseAsync("balance-not-ready", () => CheckAsync(100m, Seen with { WarmedUp = false }));
        var weight = await AddAsync(laboratory, "W-100", 100m);
        await laboratory.ShouldRefuseAsync("weight-unfit", () => CheckAsync(100m, Seen with { WeightId = weight }));
        await laboratory.Get<CheckWeightRegister>().CalibrateAsync(small.People.LaboratoryManager.Actor, weight, Certificate, 1, default);
        (await CheckAsync(100.002m, Seen with { WeightId = weight })).ShouldBeTrue();
        await using (var data = laboratory.Data())
        {
            (await data.BalanceChecks.SingleAsync(check => check.WeightSerial == "W-100")).Nominal.ShouldBe(Mass.FromMicrograms(100_000_400), "its conventional mass is the truth");
        }

        var other = await AddAsync(laboratory, "W-50", 50m);
        await laboratory.Get<CheckWeightRegister>().CalibrateAsync(small.People.LaboratoryManager.Actor, other, Certificate with { ConventionalMass = Mass.FromGrams(50m) }, 1, default);
        await laboratory.ShouldRefuseAsync("weight-other", () => CheckAsync(50m, Seen with { WeightId = other }));
        laboratory.Running.Clock.Advance(TimeSpan.FromDays(800));
        (await laboratory.ShouldRefuseAsync("weight-unfit", () => CheckAsync(100m, Seen with { WeightId = weight }))).Message.ShouldContain("was due for inspection on 2028-01-05");

        Task<bool> CheckAsync(decimal grams, CheckCircumstances seen) => laboratory.Get<BalanceTesting>().CheckAsync(small.People.Technician.Actor, small.BalanceId, small.Bench().Reading(grams), seen, null, default);
    }

    [Theory]
    [EachDatabase]
    public async Task A_weights_certificate_lies_within_its_class_in_the_past_and_is_not_its_own_standard(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var weight = await AddAsync(laboratory, "W-100", 100m);
        await laboratory.ShouldRefuseAsync("weight-certificate", () => EnterAsync(Certificate with { CalibratedOn = new DateOnly(2027, 1, 1) }));
        await laboratory.ShouldRefuseAsync("weight-certificate", () => EnterAsync(Certificate with { DueOn = new DateOnly(2025, 1, 1) }));
        await laboratory.ShouldRefuseAsync("weight-on-itself", () => EnterAsync(Certificate with { ComparedWith = " w-100 " }));
        await laboratory.ShouldRefuseAsync("weight-outside", () => EnterAsync(Certificate with { ConventionalMass = Mass.FromMicrograms(100_000_501) }));
        await laboratory.ShouldRefuseAsync("weight-uncertainty", () => EnterAsync(Certificate with { ExpandedUncertainty = Mass.FromMicrograms(167) }));
        await laboratory.ShouldRefuseAsync("weight-nominal", () => AddAsync(laboratory, "W-30", 30m));
        await laboratory.ShouldRefuseAsync("weight-serial-used", () => AddAsync(laboratory, " W-100 ", 100m));
        await EnterAsync(Certificate with { ConventionalMass = Mass.FromMicrograms(100_000_500), ExpandedUncertainty = Mass.FromMicrograms(166) });
        (await laboratory.Get<CheckWeightRegister>().AllAsync(laboratory.Small.People.Technician.Actor, default)).ShouldHaveSingleItem().State.ShouldBe(EquipmentState.InService);

        Task<bool> EnterAsync(WeightCertificate certificate) => laboratory.Get<CheckWeightRegister>().CalibrateAsync(laboratory.Small.People.LaboratoryManager.Actor, weight, certificate, 1, default);
    }

    [Theory]
    [EachDatabase]
    public async Task The_repeatability_falls_due_by_its_own_interval_is_announced_a_month_before_and_overdue_the_balance_is_refused(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (small, manager, testing) = (laboratory.Small, laboratory.Small.People.LaboratoryManager.Actor, laboratory.Get<BalanceTesting>());
        var today = DateOnly.FromDateTime(RunningLaboratory.FirstMorning.UtcDateTime);
        (await testing.DuesAsync(manager, default)).ShouldBeEmpty();
        await laboratory.ShouldRefuseAsync("repeatability-interval", () => PlanAsync(0));
        await laboratory.ShouldRefuseAsync("repeatability-interval", () => PlanAsync(1_101));
        await PlanAsync(40);
        (await testing.DuesAsync(manager, default))[small.BalanceId].ShouldBe(new RepeatabilityDue(40, null, today.AddDays(40)));
        (await WaitingAsync(today)).ShouldBeNull();
        laboratory.Running.Clock.Advance(TimeSpan.FromDays(10));
        (await WaitingAsync(today.AddDays(10)))!.Why.ShouldBe($"repeatability test due {today.AddDays(40):yyyy-MM-dd}");
        laboratory.Running.Clock.Advance(TimeSpan.FromDays(31));
        await testing.CheckAsync(small.People.Technician.Actor, small.BalanceId, small.Bench().Reading(100m), Seen, null, default);
        (await WaitingAsync(today.AddDays(41)))!.Overdue.ShouldBeTrue();
        var lot = await small.BookInAsync(small.Calcite);
        (await laboratory.ShouldRefuseAsync("balance-unfit", () => small.Bench().StartAsync(lot.RunId, small.Calcite))).Message.ShouldContain($"was due for its test on {today.AddDays(40):yyyy-MM-dd}");
        var choice = (await small.Get<Laboratory.Runs.RunChoosing>().ForAsync(small.People.Technician.Actor, lot.RunId, default))!.Balances.Single(one => one.Balance.Id == small.BalanceId);
        (choice.Unfit is not null, choice.OnlyCheckMissing).ShouldBe((true, false));
        await testing.TestRepeatabilityAsync(manager, small.BalanceId, [.. Enumerable.Range(0, 10).Select(i => Mass.FromMicrograms(100_000_000 + (i % 3 * 1_000)))], await VersionAsync(), null, default);
        (await testing.DuesAsync(manager, default))[small.BalanceId].DueOn.ShouldBe(today.AddDays(81));
        await small.Bench().StartAsync(lot.RunId, small.Calcite);
        (await small.Bench().ViewAsync(lot.RunId)).Run.BalanceThen!.ShouldContain($"repeatability test due {today.AddDays(81):yyyy-MM-dd}");

        async Task<long> VersionAsync()
        {
            await using var data = laboratory.Data();
            return (await data.Balances.SingleAsync(balance => balance.Id == small.BalanceId)).Version;
        }

        async Task PlanAsync(int days) => await testing.PlanRepeatabilityAsync(manager, small.BalanceId, days, "As the house asks", await VersionAsync(), default);
        async Task<Laboratory.Today.EquipmentWaiting?> WaitingAsync(DateOnly day) => (await small.Get<Laboratory.Today.TodayReading>().BoardAsync(manager, day, default)).Equipment.SingleOrDefault(one => one.Id == small.BalanceId);
    }

    [Theory]
    [EachDatabase]
    public async Task Ten_weighings_give_the_repeatability_and_the_minimum_weight(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (small, testing) = (laboratory.Small, laboratory.Get<BalanceTesting>());

        // Ten displays, five of 100.000 g and five of 100.002 g: s = 1 mg √(10/9) = 1.054 mg, minimum weight 2 s / 0.10 % = 2.108 g.
        IReadOnlyList<Mass> displays = [.. Enumerable.Range(0, 10).Select(at => Mass.FromMicrograms(100_000_000 + (at % 2 * 2_000)))];
        await laboratory.ShouldRefuseAsync("repeatability-count", () => TestAsync([.. displays.Take(9)]));
        await laboratory.ShouldRefuseAsync("repeatability-step", () => TestAsync([.. displays.Skip(1), Mass.FromMicrograms(100_000_500)]));
        await laboratory.ShouldRefuseAsync("overload", () => TestAsync([.. displays.Skip(1), Mass.FromGrams(621m)]));
        (await laboratory.ShouldRefuseAsync("repeatability-scatter", () => TestAsync([.. displays.Skip(1), Mass.FromGrams(105m)]))).Message.ShouldContain("from 100.0000 g to 105.0000 g");
        await TestAsync(displays);
        var test = (await testing.TestsAsync(small.People.Technician.Actor, small.BalanceId, default)).ShouldHaveSingleItem();
        (test.Deviation, test.MinimumWeight).ShouldBe((Mass.FromMicrograms(1_054), Mass.FromMicrograms(2_108_000)));
        test.Masses.ShouldBe(displays);
        await using var data = laboratory.Data();
        (await data.Balances.SingleAsync(balance => balance.Id == small.BalanceId)).Repeatability.ShouldBe(Mass.FromMicrograms(1_054));

        Task<Guid> TestAsync(IReadOnlyList<Mass> masses) => testing.TestRepeatabilityAsync(small.People.LaboratoryManager.Actor, small.BalanceId, masses, 2, null, default);
    }

    private static Task<Guid> AddAsync(OpenedSmallLaboratory laboratory, string serial, decimal grams) =>
        laboratory.Get<CheckWeightRegister>().RegisterAsync(laboratory.Small.People.LaboratoryManager.Actor, new CheckWeightCard(serial, Mass.FromGrams(grams), WeightClass.F1, "Bench 1"), null, default);
}
