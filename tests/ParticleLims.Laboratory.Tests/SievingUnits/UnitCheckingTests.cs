using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Equipment;
using ParticleLims.Laboratory.EquipmentFailures;
using ParticleLims.Laboratory.Runs;
using ParticleLims.Laboratory.SievingUnits;

namespace ParticleLims.Laboratory.Tests.SievingUnits;

/// <summary>Timer, nozzle, gauge, filter and hose of a sieving unit are checked by date and by hours; what fails or falls due keeps the unit out of runs.</summary>
public sealed class UnitCheckingTests
{
    [Theory]
    [EachDatabase]
    public async Task A_timer_that_is_five_percent_off_takes_the_unit_out_of_service_at_once(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        var jet = await AddAsync(small, isAirJet: true);
        (await CheckAsync(small, jet, Timer(180m, 181.8m))).ShouldBeTrue();
        laboratory.Running.Clock.Advance(TimeSpan.FromMinutes(5));
        (await CheckAsync(small, jet, Timer(180m, 189m))).ShouldBeFalse();
        var unit = await UnitAsync(laboratory, jet);
        unit.State.ShouldBe(EquipmentState.OutOfService);
        unit.StateReason.ShouldBe("check of the timer failed: set 180.0 s, measured 189.0 s, 5.0 % off");
        var lot = await small.BookInAsync(small.Calcite);
        await laboratory.ShouldRefuseAsync("unit-unfit", () => StartAsync(small, lot, jet));
        var checks = await small.Get<UnitChecking>().HistoryAsync(small.People.Technician.Actor, jet, default);
        checks.ConvertAll(check => check.Passed).ShouldBe([false, true]);
        checks[0].TolerancePercent.ShouldBe(1m);
    }

    [Theory]
    [EachDatabase]
    public async Task Clamps_that_do_not_hold_the_stack_take_a_shaker_out_of_service_and_an_air_jet_has_none(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        var shaker = await AddAsync(small, isAirJet: false);
        (await CheckAsync(small, shaker, UnitFound.Care(UnitCheckKind.Clamps, good: true, "A stack of eight held still"))).ShouldBeTrue();
        (await CheckAsync(small, shaker, UnitFound.Care(UnitCheckKind.Clamps, good: false, "The left one came loose after a minute"))).ShouldBeFalse();
        (await UnitAsync(laboratory, shaker)).StateReason.ShouldBe("check of the clamps failed: The left one came loose after a minute");
        (await small.Get<UnitFitnessReading>().FindAsync(small.People.Technician.Actor, shaker, default))!.Dues.ShouldContain(due => due.Kind == UnitCheckKind.Clamps && due.Plan.EveryDays == 365);
        var jet = await AddAsync(small, isAirJet: true);
        await laboratory.ShouldRefuseAsync("unit-check", () => CheckAsync(small, jet, UnitFound.Care(UnitCheckKind.Clamps, good: true, "It has none")));
    }

    [Theory]
    [EachDatabase]
    public async Task A_unit_whose_check_is_overdue_is_refused_until_it_is_checked_or_the_quality_manager_signs(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        var jet = await AddAsync(small, isAirJet: true);
        await PlanAsync(small, jet, new UnitCheckPlanCard(UnitCheckKind.Hose, 7, null, null));
        var (first, second) = (await small.BookInAsync(small.Calcite), await small.BookInAsync(small.Calcite));
        laboratory.Running.Clock.Advance(TimeSpan.FromDays(8));
        await small.Get<Laboratory.Balances.BalanceTesting>().CheckAsync(small.People.Technician.Actor, small.BalanceId, small.Bench().Reading(100m), Laboratory.Balances.CheckCircumstances.Ready, null, default);
        (await laboratory.ShouldRefuseAsync("unit-unfit", () => StartAsync(small, first, jet))).Message.ShouldContain("On the Unit AJ-1 the check of hose and seals is overdue since");
        var choice = (await small.Get<RunChoosing>().ForAsync(small.People.Technician.Actor, first.RunId, default))!.Units.ShouldHaveSingleItem();
        choice.Unfit!.ShouldContain("hose and seals");
        var manager = small.People.QualityManager;
        await small.Get<FitnessOverriding>().AllowAsync(manager.Actor, first.RunId, jet, "The hose was seen yesterday", await small.ProofAsync(manager), default);
        (await small.Get<RunChoosing>().ForAsync(small.People.Technician.Actor, first.RunId, default))!.Units.ShouldHaveSingleItem().Unfit.ShouldBeNull();
        await StartAsync(small, first, jet);
        (await small.Bench().ViewAsync(first.RunId)).Run.SievingUnitThen!.ShouldContain("allowed by signature");
        await small.Desk.AbandonAsync(first.RunId);
        await laboratory.ShouldRefuseAsync("unit-unfit", () => StartAsync(small, second, jet));
        await CheckAsync(small, jet, UnitFound.Care(UnitCheckKind.Hose, good: true, "No crack found"));
        await StartAsync(small, second, jet);
        (await small.Bench().ViewAsync(second.RunId)).Run.SievingUnitThen!.ShouldNotContain("allowed");
    }

    [Theory]
    [EachDatabase]
    public async Task The_filter_falls_due_by_the_hours_that_were_sieved_since_its_last_care(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        var method = await small.WithMethodAsync(small.Calcite, draft => draft with { Seconds = 900 });
        var jet = await AddAsync(small, isAirJet: true);
        await PlanAsync(small, jet, new UnitCheckPlanCard(UnitCheckKind.Filter, null, 1, null));
        var lot = await small.BookInAsync(method);
        await StartAsync(small, lot, jet);
        await small.Bench().FinishAsync(lot.RunId, Powder.Calcite);
        await small.Bench().SubmitAsync(lot.RunId);
        var fitness = await FitnessAsync(small, jet);
        fitness.Sieved.ShouldBe(TimeSpan.FromHours(1));
        fitness.Dues.Single(due => due.Kind == UnitCheckKind.Filter).Words(default).ShouldBe("overdue: 1.0 h sieved, 1 h allowed");
        fitness.Unfit!.ShouldStartWith("On the Unit AJ-1 the check of filter is overdue: 1.0 h sieved, 1 h allowed.");
        laboratory.Running.Clock.Advance(TimeSpan.FromMinutes(1));
        await CheckAsync(small, jet, UnitFound.Care(UnitCheckKind.Filter, good: true, "Filter replaced"));
        var after = await FitnessAsync(small, jet);
        after.Unfit.ShouldBeNull();
        after.Sieved.ShouldBe(TimeSpan.FromHours(1));
        after.Dues.Single(due => due.Kind == UnitCheckKind.Filter).Words(default).ShouldBe("after 1.0 h more");
    }

    [Theory]
    [EachDatabase]
    public async Task A_check_names_another_instrument_has_both_figures_and_belongs_to_the_kind_of_unit(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        var (jet, shaker) = (await AddAsync(small, isAirJet: true), await AddAsync(small, isAirJet: false));
        await laboratory.ShouldRefuseAsync("unit-check", () => CheckAsync(small, shaker, UnitFound.Care(UnitCheckKind.Filter, good: true, "Looked at")));
        await laboratory.ShouldRefuseAsync("unit-check", () => PlanAsync(small, jet, new UnitCheckPlanCard(UnitCheckKind.Amplitude, 30, null, 10m)));
        await laboratory.ShouldRefuseAsync("unit-check-figures", () => CheckAsync(small, jet, Timer(0m, 180m)));
        await laboratory.ShouldRefuseAsync("unit-check-figures", () => CheckAsync(small, jet, Timer(180m, -1m)));
        await laboratory.ShouldRefuseAsync("unit-check-figures", () => CheckAsync(small, jet, new UnitFound(UnitCheckKind.Timer, 180m, null, "Stopwatch SW-3", Good: true, string.Empty)));
        await laboratory.ShouldRefuseAsync("unit-check-instrument", () => CheckAsync(small, jet, Timer(180m, 180m) with { Instrument = " " }));
        await laboratory.ShouldRefuseAsync("unit-on-itself", () => CheckAsync(small, jet, Timer(180m, 180m) with { Instrument = " aj-1 " }));
        await laboratory.ShouldRefuseAsync("unit-check-words", () => CheckAsync(small, jet, UnitFound.Care(UnitCheckKind.Filter, good: true, " ok ")));
        await laboratory.ShouldRefuseAsync("interval", () => PlanAsync(small, jet, new UnitCheckPlanCard(UnitCheckKind.Filter, null, null, null)));
        await laboratory.ShouldRefuseAsync("tolerance", () => PlanAsync(small, jet, new UnitCheckPlanCard(UnitCheckKind.Filter, 90, null, 5m)));
        await laboratory.ShouldRefuseAsync("tolerance", () => PlanAsync(small, jet, new UnitCheckPlanCard(UnitCheckKind.Timer, 90, null, null)));
        await laboratory.ShouldRefuseAsync("changed-meanwhile", () => small.Get<UnitChecking>().CheckAsync(small.People.Technician.Actor, jet, Timer(180m, 180m), 1, null, default));
        (await small.Get<UnitChecking>().HistoryAsync(small.People.Technician.Actor, jet, default)).ShouldBeEmpty();
    }

    [Theory]
    [EachDatabase]
    public async Task A_case_goes_back_to_the_last_check_of_what_failed_not_to_a_later_one_of_something_else(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        var jet = await AddAsync(small, isAirJet: true);
        await CheckAsync(small, jet, Timer(180m, 180.1m));
        var good = laboratory.Running.Clock.GetUtcNow();
        laboratory.Running.Clock.Advance(TimeSpan.FromDays(3));
        await CheckAsync(small, jet, UnitFound.Care(UnitCheckKind.Hose, good: true, "No crack found"));
        laboratory.Running.Clock.Advance(TimeSpan.FromDays(1));
        await CheckAsync(small, jet, Timer(180m, 200m));
        (await small.Get<EquipmentFailureReading>().GoodUntilAsync(small.People.LaboratoryManager.Actor, jet, default)).ShouldBe(good);
    }

    private static UnitFound Timer(decimal set, decimal measured) => new(UnitCheckKind.Timer, set, measured, "Stopwatch SW-3", Good: true, string.Empty);

    private static async Task<bool> CheckAsync(SmallLaboratory small, Guid unit, UnitFound found) =>
        await small.Get<UnitChecking>().CheckAsync(small.People.Technician.Actor, unit, found, await VersionAsync(small, unit), null, default);

    private static async Task<bool> PlanAsync(SmallLaboratory small, Guid unit, UnitCheckPlanCard card) =>
        await small.Get<UnitChecking>().PlanAsync(small.People.LaboratoryManager.Actor, unit, card, "As the maker says", await VersionAsync(small, unit), default);

    private static async Task<long> VersionAsync(SmallLaboratory small, Guid unit) => (await small.Get<SievingUnitRegister>().FindAsync(small.People.Technician.Actor, unit, default))!.Version;

    private static async Task<UnitFitness> FitnessAsync(SmallLaboratory small, Guid unit) => (await small.Get<UnitFitnessReading>().FindAsync(small.People.Technician.Actor, unit, default))!;

    private static async Task<SievingUnit> UnitAsync(OpenedSmallLaboratory laboratory, Guid id)
    {
        await using var data = laboratory.Data();
        return await data.SievingUnits.SingleAsync(unit => unit.Id == id);
    }

    private static Task<bool> StartAsync(SmallLaboratory small, TestLot lot, Guid unit) =>
        small.Get<RunStart>().StartAsync(small.People.Technician.Actor, lot.RunId, new RunEquipment(small.BalanceId, lot.Method.SieveIds, unit), 1, null, null, default);

    private static async Task<Guid> AddAsync(SmallLaboratory small, bool isAirJet)
    {
        var manager = small.People.LaboratoryManager.Actor;
        var id = await small.Get<SievingUnitRegister>().RegisterAsync(manager, new SievingUnitCard(isAirJet ? "AJ-1" : "SH-1", "Unit", "Bench 1", isAirJet), null, default);
        await small.Get<EquipmentLife<SievingUnit>>().CommissionAsync(manager, id, "Timer and gauge compared", new DateOnly(2027, 3, 1), 1, default);
        return id;
    }
}
