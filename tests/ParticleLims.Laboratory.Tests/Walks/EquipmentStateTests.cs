using ParticleLims.Analysis.Quantities;
using ParticleLims.Laboratory.Balances;
using ParticleLims.Laboratory.Equipment;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Sieves;
using ParticleLims.Laboratory.SievingUnits;
using ParticleLims.Laboratory.Storage;
using ParticleLims.Laboratory.Tests.Record;

namespace ParticleLims.Laboratory.Tests.Walks;

/// <summary>Sieves, balances and sieving units by role and by state.</summary>
public sealed class EquipmentStateTests
{
    private const string Why = "As the notes of the day say";
    private const Who Manager = Who.LaboratoryManager;
    private static readonly DateOnly Due = new(2027, 3, 1);
    private static readonly EquipmentState[] Kept = [EquipmentState.AwaitingCommissioning, EquipmentState.InService, EquipmentState.OutOfService];
    private static readonly BalanceWay Network = BalanceWay.OnNetwork("127.0.0.1", 4002);

    [Theory]
    [EachDatabase]
    public Task A_sieve_is_moved_from_state_to_state_and_cared_for_only_by_those_who_may(DatabaseKind kind) => TryAsync<TestSieve>(
        kind, (stage, serial) => stage.Get<SieveRegister>().RegisterAsync(ManagerOf(stage), new SieveCard(serial, Aperture.FromMicrometres(45m), 200, "ISO 3310-1:2016", "Rack A"), null, default),
        Deed("clean", Who.Bench | Manager, Kept, async (stage, who, id, _) => await stage.Get<SieveCare>().CleanAsync(who, id, CleaningWay.SoapAndWater, Why, await VersionAsync<TestSieve>(stage, id), default)),
        Deed("plan its care", Manager, Kept, async (stage, who, id, _) => await stage.Get<SieveCare>().PlanAsync(who, id, new SieveCarePlan(90, 100, Mass.FromMicrograms(2_000)), Why, await VersionAsync<TestSieve>(stage, id), default)));

    [Theory]
    [EachDatabase]
    public Task A_balance_is_moved_from_state_to_state_and_kept_only_by_those_who_may(DatabaseKind kind) => TryAsync<Balance>(
        kind, (stage, serial) => stage.Get<BalanceRegister>().RegisterAsync(
            ManagerOf(stage), new BalanceCard(serial, "Bench 2", "Bench 2", Mass.FromGrams(0.001m), Mass.FromGrams(620m), Mass.FromGrams(0.001m), Network, "Plain line", Mass.FromGrams(100m), Mass.FromGrams(0.002m)), null, default),
        Deed("change its way in", Manager, Kept, async (stage, who, id, _) => await stage.Get<BalanceRegister>().ChangeWayInAsync(who, id, Network, await VersionAsync<Balance>(stage, id), default)),
        Deed("change its format", Manager, Kept, async (stage, who, id, _) => await stage.Get<BalanceRegister>().ChangeFormatAsync(who, id, "Plain line", await VersionAsync<Balance>(stage, id), default)),
        Deed("test its repeatability", Manager, Kept, async (stage, who, id, _) =>
            await stage.Get<BalanceTesting>().TestRepeatabilityAsync(who, id, [.. Enumerable.Range(0, 10).Select(i => Mass.FromMicrograms(100_000_000 + (i % 3 * 1_000)))], await VersionAsync<Balance>(stage, id), null, default)));

    [Theory]
    [EachDatabase]
    public Task A_sieving_unit_is_moved_from_state_to_state_and_kept_only_by_those_who_may(DatabaseKind kind) => TryAsync<SievingUnit>(
        kind, (stage, serial) => stage.Get<SievingUnitRegister>().RegisterAsync(ManagerOf(stage), new SievingUnitCard(serial, "Air jet 2", "Bench 2", IsAirJet: true), null, default),
        Deed("change its gauge", Manager, Kept, async (stage, who, id, _) => await stage.Get<SievingUnitRegister>().ChangeGaugeAsync(who, id, null, await VersionAsync<SievingUnit>(stage, id), default)),
        Deed("check its hose", Who.Bench | Manager, Kept, async (stage, who, id, _) =>
            await stage.Get<UnitChecking>().CheckAsync(who, id, EquipmentAbilities.HoseSeen, await VersionAsync<SievingUnit>(stage, id), null, default)));

    private static async Task TryAsync<T>(DatabaseKind kind, Func<Stage, string, Task<Guid>> register, params StateDeed<EquipmentState>[] own)
        where T : class, IEquipment, IVersioned
    {
        await using var stage = await Stage.OpenAsync(kind);
        var life = stage.Get<EquipmentLife<T>>();
        await StateTrial.GoAsync(
            stage,
            [
                Deed("commission", Manager, [EquipmentState.AwaitingCommissioning], async (_, who, id, _) => await life.CommissionAsync(who, id, Why, Due, await VersionAsync<T>(stage, id), default)),
                Deed("inspect", Manager, Kept, async (_, who, id, _) => await life.InspectAsync(who, id, Why, Due, await VersionAsync<T>(stage, id), default)),
                Deed("take out of service", Who.Staff, [EquipmentState.AwaitingCommissioning, EquipmentState.InService], async (_, who, id, _) => await life.StopAsync(who, id, Why, await VersionAsync<T>(stage, id), default)),
                Deed("return to service", Manager, [EquipmentState.OutOfService], async (_, who, id, _) => await life.ReturnAsync(who, id, Why, Due, await VersionAsync<T>(stage, id), default)),
                Deed("scrap", Manager, [EquipmentState.OutOfService], async (_, who, id, _) => await life.ScrapAsync(who, id, Why, await VersionAsync<T>(stage, id), default)),
                Deed("correct its plate", Manager, Kept, async (_, who, id, _) => await life.CorrectPlateAsync(who, id, new TypePlate("Tarnfell Works", null), Why, await VersionAsync<T>(stage, id), default)),
                .. own,
            ],
            async state =>
            {
                var id = await register(stage, "N-" + Guid.NewGuid().ToString("N")[..16]);
                await MoveAsync(stage, life, id, state);
                return id;
            });
    }

    private static async Task MoveAsync<T>(Stage stage, EquipmentLife<T> life, Guid id, EquipmentState state)
        where T : class, IEquipment, IVersioned
    {
        var manager = ManagerOf(stage);
        if (state == EquipmentState.InService)
        {
            await life.CommissionAsync(manager, id, Why, Due, 1, default);
        }
        else if (state != EquipmentState.AwaitingCommissioning)
        {
            await life.StopAsync(manager, id, Why, 1, default);
        }

        if (state == EquipmentState.Scrapped)
        {
            await life.ScrapAsync(manager, id, Why, 2, default);
        }
    }

    private static StateDeed<EquipmentState> Deed(string name, Who may, EquipmentState[] states, Func<Stage, Actor, Guid, SecretProof, Task> act) => new(name, may, states, act) { Otherwise = _ => "equipment-state" };

    private static Actor ManagerOf(Stage stage) => stage.People.LaboratoryManager.Actor;

    private static async Task<long> VersionAsync<T>(Stage stage, Guid id)
        where T : class, IVersioned
    {
        await using var data = stage.Data();
        return (await data.FindAsync<T>(id))!.Version;
    }
}
