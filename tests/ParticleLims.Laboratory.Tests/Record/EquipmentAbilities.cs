using Microsoft.EntityFrameworkCore;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Laboratory.Balances;
using ParticleLims.Laboratory.Equipment;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Runs;
using ParticleLims.Laboratory.Settings;
using ParticleLims.Laboratory.Sieves;
using ParticleLims.Laboratory.SievingUnits;
using ParticleLims.Laboratory.Storage;
using static ParticleLims.Laboratory.Tests.Record.Ability;

namespace ParticleLims.Laboratory.Tests.Record;

/// <summary>What is done with sieves and balances.</summary>
internal static class EquipmentAbilities
{
    private const Who Keepers = Who.LaboratoryManager | Who.Administrator;
    private const string Why = "Looked at under the lens";
    private static readonly Guid Nothing = Guid.CreateVersion7();
    private static readonly DateOnly Due = new(2027, 3, 1);
    private static readonly SieveCard NoSieve = new(" ", Aperture.FromMicrometres(63m), 200, "ISO 3310-1:2016", "Rack A");
    private static readonly SieveCard NewSieve = NoSieve with { Serial = "TS-NEW" };
    private static readonly BalanceCard NoBalance = new(" ", "Bench 2", "Bench 2", Gram(0.001m), Gram(620m), Gram(0.001m), BalanceWay.OnNetwork("127.0.0.1", 4002), "Plain line", Gram(100m), Gram(0.002m));
    private static readonly BalanceCard NewBalance = NoBalance with { Serial = "B-NEW" };
    private static readonly ReadingFormatCard NewFormat = new() { Name = "Moisture bench", Pattern = "(?<stable>[A-Z]) (?<value>[0-9.]+) (?<unit>[a-z]+)", StableMarks = "S" };
    private static readonly ReadingFormatCard NoFormat = NewFormat with { Name = " " };
    private static readonly SievingUnitCard NoUnit = new(" ", "Air jet 2", "Bench 2", IsAirJet: true);
    private static readonly SievingUnitCard NewUnit = NoUnit with { Serial = "AJ-NEW" };
    private static readonly TypePlate Plate = new("Tarnfell Works", "S 2");
    public static readonly UnitFound HoseSeen = UnitFound.Care(UnitCheckKind.Hose, good: true, "No crack found");
    private static readonly UnitCheckPlanCard HosePlan = new(UnitCheckKind.Hose, 90, null, null);

    public static IReadOnlyList<Ability> All { get; } =
    [
        .. Registers,
        .. Balances,
        .. Formats,
        .. SievingUnits,
        .. Life<SievingUnit>(UnitInServiceAsync, stage => stage.Get<SievingUnitRegister>().RegisterAsync(Manager(stage), NewUnit, null, default)),
        .. Life<TestSieve>(stage => Task.FromResult(stage.Small.Calcite.SieveIds[0]), stage => stage.Get<SieveRegister>().RegisterAsync(Manager(stage), NewSieve, null, default)),
        .. Life<Balance>(stage => Task.FromResult(stage.Small.BalanceId), stage => stage.Get<BalanceRegister>().RegisterAsync(Manager(stage), NewBalance, null, default)),
    ];

    private static IEnumerable<Ability> Registers =>
    [
        Does("sieves.register", Who.LaboratoryManager, "sieve-incomplete", (stage, who) => stage.Get<SieveRegister>().RegisterAsync(who, NoSieve, null, default),
            stage => () => stage.Get<SieveRegister>().RegisterAsync(Manager(stage), NewSieve, "register", default)),
        Reads(Who.Staff, (stage, who) => stage.Get<SieveRegister>().AllAsync(who, default)),
        Reads(Who.Staff, (stage, who) => stage.Get<SieveRegister>().FindAsync(who, Nothing, default)),
        Does("balances.register", Who.LaboratoryManager, "balance-incomplete", (stage, who) => stage.Get<BalanceRegister>().RegisterAsync(who, NoBalance, null, default),
            stage => () => stage.Get<BalanceRegister>().RegisterAsync(Manager(stage), NewBalance, "register", default)),
        Reads(Who.Staff, (stage, who) => stage.Get<BalanceRegister>().AllAsync(who, default)),
        Reads(Who.Staff, (stage, who) => stage.Get<BalanceRegister>().ChecksAsync(who, Nothing, default)),
        Reads(Who.Staff, (stage, who) => stage.Get<BalanceRegister>().UnfitReasonAsync(who, Nothing, default)),
        Reads(Who.Program, (stage, _) => stage.Get<BalanceRegister>().InServiceAsync(default)),
    ];

    private static IEnumerable<Ability> Balances =>
    [
        Does("balances.change-address", Who.LaboratoryManager, "not-found", (stage, who) => stage.Get<BalanceRegister>().ChangeWayInAsync(who, Nothing, BalanceWay.OnNetwork("10.0.0.7", 4001), 1, default),
            stage => () => stage.Get<BalanceRegister>().ChangeWayInAsync(Manager(stage), stage.Small.BalanceId, new BalanceWay(WayIn.ServerPort, Device: "/dev/ttyUSB0"), 2, default)),
        Does("balances.change-format", Who.LaboratoryManager, "not-found", (stage, who) => stage.Get<BalanceRegister>().ChangeFormatAsync(who, Nothing, "Plain line", 1, default),
            stage => () => stage.Get<BalanceRegister>().ChangeFormatAsync(Manager(stage), stage.Small.BalanceId, "Plain line with checksum", 2, default)),
        Does("balances.follow-simulation", Who.Program, "not-found", (stage, _) => stage.Get<BalanceRegister>().FollowSimulationAsync(Nothing, "127.0.0.1", 4009, default), async stage =>
        {
            await using var data = stage.Data();
            await data.Set<LaboratorySettings>().ExecuteUpdateAsync(settings => settings.SetProperty(one => one.Demonstration, true));
            return () => stage.Get<BalanceRegister>().FollowSimulationAsync(stage.Small.BalanceId, "127.0.0.1", 4009, default);
        }),
    ];

    private static IEnumerable<Ability> SievingUnits =>
    [
        Does("sieving-units.register", Who.LaboratoryManager, "unit-incomplete", (stage, who) => stage.Get<SievingUnitRegister>().RegisterAsync(who, NoUnit, null, default),
            stage => () => stage.Get<SievingUnitRegister>().RegisterAsync(Manager(stage), NewUnit, "register", default)),
        Does("sieving-units.change-gauge", Who.LaboratoryManager, "not-found", (stage, who) => stage.Get<SievingUnitRegister>().ChangeGaugeAsync(who, Nothing, null, 1, default), async stage =>
        {
            var unit = await stage.Get<SievingUnitRegister>().RegisterAsync(Manager(stage), NewUnit, null, default);
            return () => stage.Get<SievingUnitRegister>().ChangeGaugeAsync(Manager(stage), unit, new GaugeCard("10.0.0.8", 4001, PressureUnit.Kilopascal), 1, default);
        }),
        Does("sieving-units.follow-simulation", Who.Program, "not-found", (stage, _) => stage.Get<SievingUnitRegister>().FollowSimulationAsync(Nothing, "127.0.0.1", 4009, default), async stage =>
        {
            var unit = await stage.Get<SievingUnitRegister>().RegisterAsync(Manager(stage), NewUnit, null, default);
            await using var data = stage.Data();
            await data.Set<LaboratorySettings>().ExecuteUpdateAsync(settings => settings.SetProperty(one => one.Demonstration, true));
            return () => stage.Get<SievingUnitRegister>().FollowSimulationAsync(unit, "127.0.0.1", 4009, default);
        }),
        Does("sieving-units.check", Who.Bench | Who.LaboratoryManager, "not-found", (stage, who) => stage.Get<UnitChecking>().CheckAsync(who, Nothing, HoseSeen, 1, null, default), async stage =>
        {
            var unit = await stage.Get<SievingUnitRegister>().RegisterAsync(Manager(stage), NewUnit, null, default);
            return () => stage.Get<UnitChecking>().CheckAsync(stage.People.Technician.Actor, unit, HoseSeen, 1, "check", default);
        }),
        Does("sieving-units.check-plan", Who.LaboratoryManager, "not-found", (stage, who) => stage.Get<UnitChecking>().PlanAsync(who, Nothing, HosePlan, Why, 1, default), async stage =>
        {
            var unit = await stage.Get<SievingUnitRegister>().RegisterAsync(Manager(stage), NewUnit, null, default);
            return () => stage.Get<UnitChecking>().PlanAsync(Manager(stage), unit, HosePlan, Why, 1, default);
        }),
        Reads(Who.Staff, (stage, who) => stage.Get<UnitChecking>().HistoryAsync(who, Nothing, default)),
        Reads(Who.Staff, (stage, who) => stage.Get<UnitFitnessReading>().FindAsync(who, Nothing, default)),
        Reads(Who.Staff, (stage, who) => stage.Get<UnitFitnessReading>().AllAsync(who, default)),
        Reads(Who.Staff, (stage, who) => stage.Get<SievingUnitRegister>().AllAsync(who, default)),
        Reads(Who.Staff, (stage, who) => stage.Get<SievingUnitRegister>().FindAsync(who, Nothing, default)),
        Reads(Who.Program, (stage, _) => stage.Get<SievingUnitRegister>().WithGaugeAsync(default)),
    ];

    private static IEnumerable<Ability> Formats =>
    [
        Does("reading-formats.add", Keepers, "format-incomplete", (stage, who) => stage.Get<ReadingFormatKeeping>().AddAsync(who, NoFormat, null, default),
            stage => () => stage.Get<ReadingFormatKeeping>().AddAsync(stage.People.Administrator.Actor, NewFormat, "add", default)),
        Does("reading-formats.change", Keepers, "not-found", (stage, who) => stage.Get<ReadingFormatKeeping>().ChangeAsync(who, Nothing, NewFormat, Why, 1, default), async stage =>
        {
            var added = await stage.Get<ReadingFormatKeeping>().AddAsync(Manager(stage), NewFormat, null, default);
            return () => stage.Get<ReadingFormatKeeping>().ChangeAsync(Manager(stage), added, NewFormat with { Units = "g" }, Why, 1, default);
        }),
        Does("reading-formats.remove", Keepers, "not-found", (stage, who) => stage.Get<ReadingFormatKeeping>().RemoveAsync(who, Nothing, Why, 1, default), async stage =>
        {
            var added = await stage.Get<ReadingFormatKeeping>().AddAsync(Manager(stage), NewFormat, null, default);
            return () => stage.Get<ReadingFormatKeeping>().RemoveAsync(Manager(stage), added, Why, 1, default);
        }),
        Reads(Keepers, (stage, who) => stage.Get<ReadingFormatKeeping>().AllAsync(who, default)),
        Reads(Who.Program, (stage, _) => stage.Get<ReadingFormatKeeping>().ForReadingAsync(default)),
    ];

    public static IEnumerable<Ability> Life<T>(Func<Stage, Task<Guid>> inService, Func<Stage, Task<Guid>> registerAsync)
        where T : class, IEquipment, IVersioned =>
    [
        Does("equipment.commission", Who.LaboratoryManager, "not-found", (stage, who) => stage.Get<EquipmentLife<T>>().CommissionAsync(who, Nothing, Why, Due, 1, default), async stage =>
        {
            var added = await registerAsync(stage);
            return () => stage.Get<EquipmentLife<T>>().CommissionAsync(Manager(stage), added, Why, Due, 1, default);
        }),
        Does("equipment.inspect", Who.LaboratoryManager, "not-found", (stage, who) => stage.Get<EquipmentLife<T>>().InspectAsync(who, Nothing, Why, Due, 1, default),
            async stage =>
            {
                var item = await inService(stage);
                return () => stage.Get<EquipmentLife<T>>().InspectAsync(Manager(stage), item, Why, Due, 2, default);
            }),
        Does("equipment.out-of-service", Who.Staff, "not-found", (stage, who) => stage.Get<EquipmentLife<T>>().StopAsync(who, Nothing, Why, 1, default),
            async stage =>
            {
                var item = await inService(stage);
                return () => StopAsync<T>(stage, item);
            }),
        Does("equipment.return", Who.LaboratoryManager, "not-found", (stage, who) => stage.Get<EquipmentLife<T>>().ReturnAsync(who, Nothing, Why, Due, 1, default), async stage =>
        {
            var item = await inService(stage);
            await StopAsync<T>(stage, item);
            return () => stage.Get<EquipmentLife<T>>().ReturnAsync(Manager(stage), item, Why, Due, 3, default);
        }),
        Does("equipment.scrap", Who.LaboratoryManager, "not-found", (stage, who) => stage.Get<EquipmentLife<T>>().ScrapAsync(who, Nothing, Why, 1, default), async stage =>
        {
            var item = await inService(stage);
            await StopAsync<T>(stage, item);
            return () => stage.Get<EquipmentLife<T>>().ScrapAsync(Manager(stage), item, Why, 3, default);
        }),
        Does("equipment.correct-plate", Who.LaboratoryManager, "not-found", (stage, who) => stage.Get<EquipmentLife<T>>().CorrectPlateAsync(who, Nothing, Plate, Why, 1, default), async stage =>
        {
            var item = await inService(stage);
            return () => stage.Get<EquipmentLife<T>>().CorrectPlateAsync(Manager(stage), item, Plate, Why, 2, default);
        }),
        Reads(Who.Staff, (stage, who) => stage.Get<EquipmentLife<T>>().HistoryAsync(who, Nothing, default)),
    ];

    private static async Task<Guid> UnitInServiceAsync(Stage stage)
    {
        var unit = await stage.Get<SievingUnitRegister>().RegisterAsync(Manager(stage), NewUnit, null, default);
        await stage.Get<EquipmentLife<SievingUnit>>().CommissionAsync(Manager(stage), unit, Why, Due, 1, default);
        return unit;
    }

    private static Task<bool> StopAsync<T>(Stage stage, Guid item)
        where T : class, IEquipment, IVersioned => stage.Get<EquipmentLife<T>>().StopAsync(stage.People.Technician.Actor, item, "It fell to the floor", 2, default);

    private static Actor Manager(Stage stage) => stage.People.LaboratoryManager.Actor;

    private static Mass Gram(decimal grams) => Mass.FromGrams(grams);
}
