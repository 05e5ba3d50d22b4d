using Microsoft.EntityFrameworkCore;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Laboratory.Balances;
using ParticleLims.Laboratory.Runs;
using ParticleLims.Laboratory.Sieves;
using ParticleLims.Laboratory.Today;

namespace ParticleLims.Laboratory.Tests.Sieves;

/// <summary>The check with a reference material has an interval of its own, by days and by runs; announced early and refused when it is over.</summary>
public sealed class ReferenceIntervalTests
{
    private static readonly DateOnly FirstDay = DateOnly.FromDateTime(RunningLaboratory.FirstMorning.UtcDateTime);
    private static readonly SieveCarePlan Usual = new(365, null, SieveCarePlan.UsualTareScatter);
    private static readonly MaterialCard Beads = new("Glass beads 35 to 60 µm", "GB-7", "RM-GB-7", new DateOnly(2028, 1, 1), "38 10 0.5\n42 30 0.5\n46 60 0.5\n52 90 0.5");

    [Theory]
    [EachDatabase]
    public async Task By_days_a_sieve_is_announced_a_month_before_and_refused_the_day_after_until_it_is_checked(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (small, id) = (laboratory.Small, laboratory.Small.Calcite.SieveIds[2]);
        (await FitnessAsync(laboratory, id)).Reference.ShouldBeNull("where no interval is set nothing falls due");
        await PlanAsync(laboratory, id, Usual with { ReferenceEveryDays = 40 });
        (await laboratory.Get<SieveFitnessReading>().ReferencesNearAsync(small.People.Technician.Actor, default)).ShouldBeEmpty();
        laboratory.Running.Clock.Advance(TimeSpan.FromDays(10));
        (await WaitingAsync(laboratory, id, 10))!.Overdue.ShouldBeFalse();
        (await WaitingAsync(laboratory, id, 10))!.Why.ShouldBe($"reference check due {FirstDay.AddDays(40):yyyy-MM-dd}");
        laboratory.Running.Clock.Advance(TimeSpan.FromDays(30));
        await CheckBalanceAsync(laboratory);
        var lot = await small.BookInAsync(small.Calcite);
        (await FitnessAsync(laboratory, id)).Unfit.ShouldBeNull("the day itself still counts");
        laboratory.Running.Clock.Advance(TimeSpan.FromDays(1));
        await CheckBalanceAsync(laboratory);
        (await WaitingAsync(laboratory, id, 41))!.Overdue.ShouldBeTrue();
        (await laboratory.ShouldRefuseAsync("sieve-unfit", () => small.Bench().StartAsync(lot.RunId, small.Calcite))).Message
            .ShouldContain($"the reference check overdue since {FirstDay.AddDays(40):yyyy-MM-dd}. Take another one, or check it with a reference material");
        await CheckAsync(laboratory, id);
        await small.Bench().StartAsync(lot.RunId, small.Calcite);
        (await small.Bench().ViewAsync(lot.RunId)).Run.Sieves.Single(sieve => sieve.SieveId == id).FitnessThen.ShouldContain($"reference check due {FirstDay.AddDays(81):yyyy-MM-dd}");
        (await WaitingAsync(laboratory, id, 41)).ShouldBeNull();
    }

    [Theory]
    [EachDatabase]
    public async Task By_runs_a_sieve_is_announced_when_five_are_left_and_an_inspection_does_not_take_the_place_of_the_check(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (small, id) = (laboratory.Small, laboratory.Small.Calcite.SieveIds[2]);
        await PlanAsync(laboratory, id, Usual with { ReferenceEveryRuns = 6 });
        laboratory.Running.Clock.Advance(TimeSpan.FromMinutes(1));
        (await WaitingAsync(laboratory, id, 0)).ShouldBeNull();
        await RunAsync(laboratory);
        (await WaitingAsync(laboratory, id, 0))!.Why.ShouldBe("reference check after 5 runs more");
        await PlanAsync(laboratory, id, Usual with { ReferenceEveryRuns = 1 });
        var lot = await small.BookInAsync(small.Calcite);
        laboratory.Running.Clock.Advance(TimeSpan.FromMinutes(1));
        await laboratory.Get<SieveCare>().InspectAsync(small.People.Technician.Actor, id, new SieveFound(SieveFaults.None, "Looked at against the lamp"), (await SieveAsync(laboratory, id)).Version, null, default);
        (await laboratory.ShouldRefuseAsync("sieve-unfit", () => small.Bench().StartAsync(lot.RunId, small.Calcite))).Message.ShouldContain("the reference check overdue: 1 of 1 runs");
        await CheckAsync(laboratory, id);
        await small.Bench().StartAsync(lot.RunId, small.Calcite);
    }

    [Theory]
    [EachDatabase]
    public async Task An_interval_is_longer_than_nothing_and_taking_it_away_asks_no_more(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var id = laboratory.Small.Calcite.SieveIds[2];
        await laboratory.ShouldRefuseAsync("reference-interval", () => PlanAsync(laboratory, id, Usual with { ReferenceEveryDays = 0 }));
        await laboratory.ShouldRefuseAsync("reference-interval", () => PlanAsync(laboratory, id, Usual with { ReferenceEveryRuns = 10_001 }));
        await PlanAsync(laboratory, id, Usual with { ReferenceEveryDays = 1 });
        laboratory.Running.Clock.Advance(TimeSpan.FromDays(9));
        (await FitnessAsync(laboratory, id)).Unfit!.ShouldContain("reference check overdue");
        await PlanAsync(laboratory, id, Usual);
        (await FitnessAsync(laboratory, id)).Unfit.ShouldBeNull();
        (await SieveAsync(laboratory, id)).ReferenceFrom.ShouldBeNull();
    }

    private static async Task PlanAsync(OpenedSmallLaboratory laboratory, Guid id, SieveCarePlan plan) =>
        await laboratory.Get<SieveCare>().PlanAsync(laboratory.Small.People.LaboratoryManager.Actor, id, plan, "As the house asks", (await SieveAsync(laboratory, id)).Version, default);

    private static async Task CheckAsync(OpenedSmallLaboratory laboratory, Guid id)
    {
        var small = laboratory.Small;
        var material = await laboratory.Get<SieveMeasuring>().AddMaterialAsync(small.People.LaboratoryManager.Actor, Beads, null, default);
        (await laboratory.Get<SieveMeasuring>().CheckAsync(
            small.People.Technician.Actor, id, material, small.BalanceId, [new ReferenceSieving(Mass.FromGrams(280m), Mass.FromGrams(290m), Mass.FromGrams(285m))], (await SieveAsync(laboratory, id)).Version, null, default)).ShouldBeTrue();
    }

    private static Task<bool> CheckBalanceAsync(OpenedSmallLaboratory laboratory) => laboratory.Get<BalanceTesting>().CheckAsync(
        laboratory.Small.People.Technician.Actor, laboratory.Small.BalanceId, laboratory.Small.Bench().Reading(100m), CheckCircumstances.Ready, null, default);

    private static async Task RunAsync(OpenedSmallLaboratory laboratory) =>
        await laboratory.Small.Bench().CarryOutAsync((await laboratory.Small.BookInAsync(laboratory.Small.Calcite)).RunId, laboratory.Small.Calcite, Powder.Calcite);

    private static async Task<SieveFitness> FitnessAsync(OpenedSmallLaboratory laboratory, Guid id) => (await laboratory.Get<SieveFitnessReading>().FindAsync(laboratory.Small.People.Technician.Actor, id, default))!;

    private static async Task<EquipmentWaiting?> WaitingAsync(OpenedSmallLaboratory laboratory, Guid id, int day) =>
        (await laboratory.Get<TodayReading>().BoardAsync(laboratory.Small.People.LaboratoryManager.Actor, FirstDay.AddDays(day), default)).Equipment.SingleOrDefault(one => one.Id == id);

    private static async Task<TestSieve> SieveAsync(OpenedSmallLaboratory laboratory, Guid id)
    {
        await using var data = laboratory.Data();
        return await data.TestSieves.SingleAsync(sieve => sieve.Id == id);
    }
}
