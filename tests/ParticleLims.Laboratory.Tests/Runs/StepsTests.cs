using ParticleLims.Laboratory.Runs;

namespace ParticleLims.Laboratory.Tests.Runs;

/// <summary>The run's next step follows from what is on disk, after every step anew and for whoever asks.</summary>
public sealed class StepsTests
{
    [Theory]
    [EachDatabase]
    public async Task Separate_portions_ask_for_a_new_portion_on_each_sieve(DatabaseKind kind) => await WalkAsync(kind, small => small.Starch, Powder.Starch,
    [
        Weigh(WeighingKind.Empty, 1), Weigh(WeighingKind.Loaded, 1), RunStep.Sieve(1), Weigh(WeighingKind.After, 1),
        Weigh(WeighingKind.Empty, 2), Weigh(WeighingKind.Loaded, 2), RunStep.Sieve(2), Weigh(WeighingKind.After, 2),
    ]);

    [Theory]
    [EachDatabase]
    public async Task A_carried_residue_goes_from_the_finest_sieve_to_the_coarsest(DatabaseKind kind) => await WalkAsync(kind, small => small.Calcite, Powder.Calcite,
        [.. Enumerable.Range(1, 4).SelectMany(position => (RunStep[])[Weigh(WeighingKind.Empty, position), Weigh(WeighingKind.Loaded, position), RunStep.Sieve(position), Weigh(WeighingKind.After, position)])]);

    [Theory]
    [EachDatabase]
    public async Task A_nested_stack_is_weighed_empty_sieved_once_and_weighed_from_the_top(DatabaseKind kind) => await WalkAsync(kind, small => small.Spice, Powder.Spice,
    [
        Weigh(WeighingKind.Empty, 1), Weigh(WeighingKind.Empty, 2), Weigh(WeighingKind.Empty, 3), Weigh(WeighingKind.ReceiverEmpty, 0),
        Weigh(WeighingKind.ContainerEmpty, 0), Weigh(WeighingKind.ContainerLoaded, 0), RunStep.Sieve(0),
        Weigh(WeighingKind.After, 3), Weigh(WeighingKind.After, 2), Weigh(WeighingKind.After, 1), Weigh(WeighingKind.ReceiverAfter, 0),
    ]);

    [Theory]
    [EachDatabase]
    public async Task Sieving_that_was_stopped_goes_on_until_its_seconds_add_up(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        var lot = await small.BookInAsync(small.Calcite);
        var bench = small.Bench();
        await bench.StartAsync(lot.RunId, lot.Method);
        await bench.StepAsync(lot.RunId, Powder.Calcite);
        await bench.StepAsync(lot.RunId, Powder.Calcite);
        await bench.SieveAsync(lot.RunId, 1, 100);
        (await bench.ViewAsync(lot.RunId)).Next.ShouldBe(RunStep.Sieve(1));
        await bench.SieveAsync(lot.RunId, 1, 79);
        (await bench.ViewAsync(lot.RunId)).Next.ShouldBe(RunStep.Sieve(1));
        await bench.SieveAsync(lot.RunId, 1, 600);
        var view = await bench.ViewAsync(lot.RunId);
        view.Next.ShouldBe(Weigh(WeighingKind.After, 1));
        view.Run.Intervals.Select(interval => interval.Seconds).ShouldBe([100, 79, 1], ignoreOrder: true, "the unit stops by its own timer: no second beyond the plan was sieved");
    }

    [Theory]
    [EachDatabase]
    public async Task A_countdown_that_was_begun_goes_on_at_another_terminal(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        var lot = await small.BookInAsync(small.Calcite);
        await small.Bench().StartAsync(lot.RunId, lot.Method);
        await small.Bench().StepAsync(lot.RunId, Powder.Calcite);
        await small.Bench().StepAsync(lot.RunId, Powder.Calcite);
        await small.Get<RunSieving>().BeginAsync(small.People.Technician.At("T1"), lot.RunId, 1, "begin", default);
        laboratory.Running.Clock.Advance(TimeSpan.FromSeconds(200));

        await laboratory.ShouldRefuseAsync("sieving-goes-on", () => small.Get<RunSieving>().BeginAsync(small.People.SecondTechnician.At("T2"), lot.RunId, 1, "again", default));
        (await small.Get<RunSieving>().EndAsync(small.People.SecondTechnician.At("T2"), lot.RunId, 1, null, "end", default)).ShouldBe(180);
        (await small.Bench().ViewAsync(lot.RunId)).Next.ShouldBe(Weigh(WeighingKind.After, 1));
        await laboratory.ShouldRefuseAsync("sieving-not-going-on", () => small.Get<RunSieving>().EndAsync(small.People.Technician.Actor, lot.RunId, 1, null, "end-2", default));
    }

    [Theory]
    [EachDatabase]
    public async Task A_clock_set_back_while_sieving_gives_no_negative_seconds(DatabaseKind kind)
    {
        var began = RunningLaboratory.FirstMorning.AddHours(1);
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        var lot = await small.BookInAsync(small.Calcite);
        await small.Bench().StartAsync(lot.RunId, lot.Method);
        await small.Bench().StepAsync(lot.RunId, Powder.Calcite);
        await small.Bench().StepAsync(lot.RunId, Powder.Calcite);
        await small.Get<RunSieving>().BeginAsync(small.People.Technician.Actor, lot.RunId, 1, "begin", default);
        laboratory.Running.Clock.AdjustTime(began.AddHours(-3));
        (await small.Get<RunSieving>().EndAsync(small.People.Technician.Actor, lot.RunId, 1, null, "end", default)).ShouldBe(0);
        (await small.Bench().ViewAsync(lot.RunId)).Next.ShouldBe(RunStep.Sieve(1));
    }

    private static RunStep Weigh(WeighingKind kind, int position) => RunStep.Weigh(kind, position);

    private static async Task WalkAsync(DatabaseKind kind, Func<SmallLaboratory, TestMethod> method, Powder powder, RunStep[] expected)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var lot = await laboratory.Small.BookInAsync(method(laboratory.Small));
        (await laboratory.Small.Bench().ViewAsync(lot.RunId)).Next.ShouldBeNull("a planned run has no step yet");
        await laboratory.Small.Bench().StartAsync(lot.RunId, lot.Method);
        var people = (TestPerson[])[laboratory.Small.People.Technician, laboratory.Small.People.SecondTechnician];
        for (var index = 0; index < expected.Length; index++)
        {
            var bench = laboratory.Small.Bench(people[index % 2]);
            (await bench.ViewAsync(lot.RunId)).Next.ShouldBe(expected[index]);
            (await bench.StepAsync(lot.RunId, powder)).ShouldBeTrue();
        }

        var view = await laboratory.Small.Bench().ViewAsync(lot.RunId);
        view.Next.ShouldBeNull();
        view.Run.Weighings.Select(weighing => weighing.PersonName).Distinct().Count().ShouldBe(2, "each weighing keeps the name of who took it");
    }
}
