using ParticleLims.Analysis.Quantities;
using ParticleLims.Laboratory.Equipment;
using ParticleLims.Laboratory.Runs;
using ParticleLims.Laboratory.SievingUnits;

namespace ParticleLims.Laboratory.Tests.SievingUnits;

/// <summary>A run names its sieving unit, which is fit for use and made for the procedure; the pressure of its gauge stays with its course.</summary>
public sealed class SievingUnitTests
{
    [Theory]
    [EachDatabase]
    public async Task A_run_is_started_on_a_unit_in_service_that_is_made_for_its_procedure(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        var (jet, shaker) = (await AddAsync(small, "AJ-1", isAirJet: true), await AddAsync(small, "SH-1", isAirJet: false, commission: false));
        var lot = await small.BookInAsync(small.Calcite);
        var stack = await small.BookInAsync(small.Spice);
        (await laboratory.ShouldRefuseAsync("unit-wrong", () => StartAsync(small, stack, jet))).Message.ShouldContain("it is an air-jet unit");
        (await laboratory.ShouldRefuseAsync("unit-unfit", () => StartAsync(small, stack, shaker))).Message.ShouldContain("awaiting commissioning");
        await StartAsync(small, lot, jet);
        (await small.Bench().ViewAsync(lot.RunId)).Run.SievingUnitId.ShouldBe(jet);
    }

    [Theory]
    [EachDatabase]
    public async Task The_course_of_the_pressure_is_kept_and_a_band_that_it_left_is_a_finding(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        var lot = await small.BookInAsync(small.Calcite);
        var bench = small.Bench();
        await bench.StartAsync(lot.RunId, lot.Method);
        await bench.StepAsync(lot.RunId, Powder.Calcite);
        await bench.StepAsync(lot.RunId, Powder.Calcite);
        IReadOnlyList<PressureMoment> course = [.. Enumerable.Range(0, 360).Select(at => new PressureMoment(at * 500, Pressure.FromPascals(at == 100 ? 1_900 : 3_200 + (at % 7))))];
        await bench.SieveAsync(lot.RunId, 1, 180, PressureSeen.Of(course, PressureSource.Gauge));
        var view = await bench.ViewAsync(lot.RunId);
        var interval = view.Run.Intervals.ShouldHaveSingleItem();
        interval.PressureSource.ShouldBe(PressureSource.Gauge);
        interval.Course.ShouldBe(course);
        (interval.PressureLowest!.Value.Pascals, interval.PressureHighest!.Value.Pascals).ShouldBe((1_900L, 3_206L));
        view.Findings.ShouldHaveSingleItem().ShouldBe("The pressure at 20 µm ran from 1.9 kPa to 3.206 kPa; the method asks for 2.5 kPa to 4.5 kPa.");
    }

    [Fact]
    public void A_long_course_is_thinned_and_keeps_its_extremes()
    {
        IReadOnlyList<PressureMoment> course = [.. Enumerable.Range(0, 20_000).Select(at => new PressureMoment(at * 100, Pressure.FromPascals(at switch { 7_777 => 400, 12_345 => 5_000, _ => 3_000 + (at % 11) })))];
        var seen = PressureSeen.Of(course, PressureSource.File).ShouldNotBeNull();
        seen.Course.Count.ShouldBeLessThanOrEqualTo(PressureSeen.MostMoments);
        seen.Course.Min(moment => moment.Pressure.Pascals).ShouldBe(400);
        seen.Course.Max(moment => moment.Pressure.Pascals).ShouldBe(5_000);
        seen.Course.Select(moment => moment.Milliseconds).ShouldBeInOrder();
        seen.Mean.Pascals.ShouldBe(3_005);
        PressureSeen.Of([], PressureSource.File).ShouldBeNull();
    }

    [Theory]
    [EachDatabase]
    public async Task A_gauge_belongs_to_an_air_jet_unit_and_answers_at_a_host_and_port(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        var register = small.Get<SievingUnitRegister>();
        var manager = small.People.LaboratoryManager.Actor;
        var gauge = new GaugeCard("gauge-1.tarnfell.example", 4001, PressureUnit.InchOfWater);
        await laboratory.ShouldRefuseAsync("unit-gauge", () => register.RegisterAsync(manager, new SievingUnitCard("SH-1", "Shaker", "Side room", IsAirJet: false, gauge), null, default));
        await laboratory.ShouldRefuseAsync("port", () => register.RegisterAsync(manager, new SievingUnitCard("AJ-1", "Air jet", "Bench 1", IsAirJet: true, gauge with { Port = 0 }), null, default));
        var jet = await AddAsync(small, "AJ-1", isAirJet: true);
        await laboratory.ShouldRefuseAsync("unit-serial-used", () => register.RegisterAsync(manager, new SievingUnitCard(" AJ-1 ", "Air jet", "Bench 1", IsAirJet: true), null, default));
        (await register.WithGaugeAsync(default)).ShouldBeEmpty();
        await register.ChangeGaugeAsync(manager, jet, gauge, (await register.FindAsync(manager, jet, default))!.Version, default);
        (await register.WithGaugeAsync(default)).ShouldHaveSingleItem().GaugeUnit.ShouldBe(PressureUnit.InchOfWater);
        await laboratory.ShouldRefuseAsync("not-demonstration", () => register.FollowSimulationAsync(jet, "127.0.0.1", 4001, default));
    }

    private static Task<bool> StartAsync(SmallLaboratory small, TestLot lot, Guid unit) =>
        small.Get<RunStart>().StartAsync(small.People.Technician.Actor, lot.RunId, new RunEquipment(small.BalanceId, lot.Method.SieveIds, unit), 1, null, null, default);

    private static async Task<Guid> AddAsync(SmallLaboratory small, string serial, bool isAirJet, bool commission = true)
    {
        var manager = small.People.LaboratoryManager.Actor;
        var id = await small.Get<SievingUnitRegister>().RegisterAsync(manager, new SievingUnitCard(serial, "Unit", "Bench 1", isAirJet), null, default);
        if (commission)
        {
            await small.Get<EquipmentLife<SievingUnit>>().CommissionAsync(manager, id, "Timer and gauge compared", new DateOnly(2027, 3, 1), 1, default);
        }

        return id;
    }
}
