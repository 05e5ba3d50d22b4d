using Microsoft.EntityFrameworkCore;
using ParticleLims.Analysis.Balances;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Laboratory.Balances;
using ParticleLims.Laboratory.Equipment;
using ParticleLims.Laboratory.Sieves;
using ParticleLims.Laboratory.SievingUnits;

namespace ParticleLims.Laboratory.Tests.Equipment;

/// <summary>Maker, model and software version of each item are written down at its registration and corrected with a reason.</summary>
public sealed class TypePlateTests
{
    private static readonly SieveCard Sieve = new("TS-NEW", Aperture.FromMicrometres(63m), 200, "ISO 3310-1:2016", "Rack A");
    private static readonly BalanceCard Balance = new(
        "B-0500", "Bench 2", "Bench 2", Mass.FromGrams(0.001m), Mass.FromGrams(620m), Mass.FromGrams(0.001m), BalanceWay.OnNetwork("127.0.0.1", 4002), "Plain line", Mass.FromGrams(100m), Mass.FromGrams(0.002m));

    [Theory]
    [EachDatabase]
    public async Task Each_kind_of_equipment_keeps_what_its_plate_says_from_its_registration_on(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (manager, plate) = (laboratory.Small.People.LaboratoryManager.Actor, new TypePlate(" Tarnfell Works ", "S 2", null));
        var sieve = await laboratory.Get<SieveRegister>().RegisterAsync(manager, Sieve with { Plate = plate }, "with a key", default);
        var balance = await laboratory.Get<BalanceRegister>().RegisterAsync(manager, Balance with { Plate = plate with { Software = "1.04" } }, null, default);
        var unit = await laboratory.Get<SievingUnitRegister>().RegisterAsync(manager, new SievingUnitCard("AJ-9", "Air jet 9", "Bench 2", IsAirJet: true) { Plate = plate with { Model = " ", Software = "3.2" } }, null, default);
        var weight = await laboratory.Get<CheckWeightRegister>().RegisterAsync(manager, new CheckWeightCard("W-9", Mass.FromGrams(100m), WeightClass.F1, "Case 1") { Plate = plate }, null, default);
        await using var data = laboratory.Data();
        TypePlate.Of(await data.TestSieves.SingleAsync(one => one.Id == sieve)).ShouldBe(new TypePlate("Tarnfell Works", "S 2"));
        TypePlate.Of(await data.Balances.SingleAsync(one => one.Id == balance)).ShouldBe(new TypePlate("Tarnfell Works", "S 2", "1.04"));
        (await laboratory.Get<EquipmentLife<Balance>>().HistoryAsync(manager, balance, default)).ShouldHaveSingleItem().Note.ShouldBe("Bench 2; maker Tarnfell Works, model S 2, software 1.04");
        TypePlate.Of(await data.SievingUnits.SingleAsync(one => one.Id == unit)).ShouldBe(new TypePlate("Tarnfell Works", null, "3.2"));
        TypePlate.Of(await data.CheckWeights.SingleAsync(one => one.Id == weight)).ShouldBe(new TypePlate("Tarnfell Works", "S 2"));
    }

    [Theory]
    [EachDatabase]
    public async Task A_plate_is_corrected_with_a_reason_and_what_stood_there_before_stays_in_the_history(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (manager, id, life) = (laboratory.Small.People.LaboratoryManager.Actor, laboratory.Small.BalanceId, laboratory.Get<EquipmentLife<Balance>>());
        await laboratory.ShouldRefuseAsync("reason-missing", () => CorrectAsync(new TypePlate("Tarnfell Works", "B 620"), " ", 2));
        await CorrectAsync(new TypePlate("Tarnfell Works", "B 620", "1.04"), "Read from its plate", 2);
        await laboratory.ShouldRefuseAsync("changed-meanwhile", () => CorrectAsync(new TypePlate("Tarnfell Works", "B 620", "1.05"), "Its program was renewed", 2));
        await CorrectAsync(new TypePlate("Tarnfell Works", "B 620", "1.05"), "Its program was renewed", 3);
        await laboratory.ShouldRefuseAsync("plate-same", () => CorrectAsync(new TypePlate("Tarnfell Works ", "B 620", "1.05"), "Read once more", 4));
        (await life.HistoryAsync(manager, id, default)).Where(one => one.What == "Maker and model corrected").Select(one => one.Note).ShouldBe(
        [
            "maker Tarnfell Works, model B 620, software 1.05; before: maker Tarnfell Works, model B 620, software 1.04. Its program was renewed",
            "maker Tarnfell Works, model B 620, software 1.04; before: nothing written down. Read from its plate",
        ], ignoreOrder: true);

        Task<bool> CorrectAsync(TypePlate plate, string reason, long version) => life.CorrectPlateAsync(manager, id, plate, reason, version, default);
    }

    [Theory]
    [EachDatabase]
    public async Task A_sieve_has_no_software_and_no_plate_is_longer_than_is_kept(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (manager, register) = (laboratory.Small.People.LaboratoryManager.Actor, laboratory.Get<SieveRegister>());
        await laboratory.ShouldRefuseAsync("plate-software", () => register.RegisterAsync(manager, Sieve with { Plate = new TypePlate(null, null, "1.0") }, null, default));
        await laboratory.ShouldRefuseAsync("plate-long", () => register.RegisterAsync(manager, Sieve with { Plate = new TypePlate(new string('m', TypePlate.Longest + 1), null) }, null, default));
        await laboratory.ShouldRefuseAsync("plate-software", () => laboratory.Get<EquipmentLife<TestSieve>>().CorrectPlateAsync(manager, laboratory.Small.Calcite.SieveIds[0], new TypePlate(null, null, "1.0"), "By mistake", 2, default));
    }
}
