using ParticleLims.Analysis.Quantities;
using ParticleLims.Analysis.Weighings;
using ParticleLims.Laboratory.Methods;
using ParticleLims.Laboratory.Runs;

namespace ParticleLims.Laboratory.Tests.Runs;

/// <summary>Sieving goes on in further intervals until the residue changes no more than the method allows, or the method's intervals are used up.</summary>
public sealed class EndPointTests
{
    private static readonly EndPointPlan Plan = EndPointPlan.By(EndPointRule.Pharmacopoeia, intervalSeconds: 60, mostIntervals: 3);

    [Theory]
    [EachDatabase]
    public async Task A_residue_that_still_changes_asks_for_another_interval_and_one_that_does_not_ends_it(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (run, bench) = await BeginAsync(laboratory, laboratory.Small.Calcite, Plan);

        // 6 g of 10 g lie on the sieve; 5 % of that are 0.3 g.
        await WeighAfterAsync(bench, run, 1, 0, 6.000m);
        (await bench.ViewAsync(run)).Next.ShouldBe(RunStep.Sieve(1, 1));
        await bench.SieveAsync(run, 1, 60);
        await WeighAfterAsync(bench, run, 1, 1, 5.600m);
        (await bench.ViewAsync(run)).Next.ShouldBe(RunStep.Sieve(1, 2), "0.4 g of 6 g still went through");
        await bench.SieveAsync(run, 1, 60);
        await WeighAfterAsync(bench, run, 1, 2, 5.450m);
        var view = await bench.ViewAsync(run);
        view.Next.ShouldBe(RunStep.Weigh(WeighingKind.Empty, 2), "0.15 g of 5.6 g is less than 5 %");
        view.Run.Find(WeighingKind.After, 1)!.Mass.ShouldBe(Mass.FromGrams(TestBench.TareGrams(1) + 5.450m), "the last weighing counts");
        EndPoint.Changes(view.Run, view.Method).Select(change => (change.Round, change.Passed.Grams, change.IsReached)).ShouldBe([(1, 0.400m, false), (2, 0.150m, true)]);
        view.Findings.ShouldBeEmpty();
    }

    [Theory]
    [EachDatabase]
    public async Task After_the_last_interval_the_run_goes_on_and_says_that_the_end_point_was_not_reached(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (run, bench) = await BeginAsync(laboratory, laboratory.Small.Calcite, Plan);
        decimal[] residues = [6.000m, 5.500m, 5.000m, 4.500m];
        for (var round = 0; round < residues.Length; round++)
        {
            if (round > 0)
            {
                await bench.SieveAsync(run, 1, 60);
            }

            await WeighAfterAsync(bench, run, 1, round, residues[round]);
        }

        var view = await bench.ViewAsync(run);
        view.Next.ShouldBe(RunStep.Weigh(WeighingKind.Empty, 2));
        view.Findings.ShouldHaveSingleItem().ShouldBe("The end point was not reached at 20 µm: in further interval 3, the last that the method allows, the residue went from 5.0000 g to 4.5000 g.");
    }

    [Theory]
    [EachDatabase]
    public async Task A_residue_that_grew_in_an_interval_is_refused_and_one_before_the_last_sieving_cannot_be_weighed_again(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (run, bench) = await BeginAsync(laboratory, laboratory.Small.Calcite, Plan);
        await WeighAfterAsync(bench, run, 1, 0, 6.000m);
        await bench.SieveAsync(run, 1, 60);
        await laboratory.ShouldRefuseAsync("mass-gained", () => WeighAfterAsync(bench, run, 1, 1, 6.050m));
        await laboratory.ShouldRefuseAsync("weighing-past", () => bench.WeighAgainAsync(run, WeighingKind.After, 1, TestBench.TareGrams(1) + 5.9m, "Draught while weighing"));
    }

    [Theory]
    [EachDatabase]
    public async Task A_stack_is_sieved_on_and_weighed_whole_until_no_sieve_changes_any_more(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        var lot = await small.BookInAsync(await small.WithMethodAsync(small.Spice, draft => draft with { EndPoint = Plan with { IntervalSeconds = 120 } }));
        var bench = small.Bench();
        await bench.StartAsync(lot.RunId, lot.Method);
        await bench.FinishAsync(lot.RunId, Powder.Spice);
        var view = await bench.ViewAsync(lot.RunId);
        view.Run.Intervals.Select(interval => (interval.Round, interval.Seconds)).ShouldBe([(0, 300), (1, 120)], ignoreOrder: true);
        view.Run.StandingWeighings.Count(weighing => weighing.Round == 1).ShouldBe(4, "three sieves and the receiver");
        (await bench.SubmitAsync(lot.RunId)).ShouldBeTrue();
    }

    [Theory]
    [EachDatabase]
    public async Task What_the_last_interval_changed_widens_the_uncertainty(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (run, bench) = await BeginAsync(laboratory, laboratory.Small.Calcite, Plan);
        await WeighAfterAsync(bench, run, 1, 0, 6.000m);
        var before = Uncertainty(await bench.ViewAsync(run));
        await bench.SieveAsync(run, 1, 60);
        await WeighAfterAsync(bench, run, 1, 1, 5.900m);

        // 0.1 g of 10 g over the root of three is 0.58 % (docs/science/uncertainty-inputs.md).
        (Uncertainty(await bench.ViewAsync(run)) - before).ShouldBeGreaterThan(0.3);
    }

    private static double Uncertainty(RunView view) =>
        view.SoFar.ShouldBeOfType<ParticleLims.Analysis.Evaluated>().Result.Cuts[0].PassingStandardUncertaintyPercent!.Value;

    private static async Task<(Guid Run, TestBench Bench)> BeginAsync(OpenedSmallLaboratory laboratory, TestMethod method, EndPointPlan plan)
    {
        var small = laboratory.Small;
        var lot = await small.BookInAsync(await small.WithMethodAsync(method, draft => draft with { EndPoint = plan }));
        var bench = small.Bench();
        await bench.StartAsync(lot.RunId, lot.Method);
        await bench.StepAsync(lot.RunId, Powder.Calcite);
        await bench.StepAsync(lot.RunId, Powder.Calcite);
        await bench.StepAsync(lot.RunId, Powder.Calcite);
        return (lot.RunId, bench);
    }

    private static Task<WeighingTaken> WeighAfterAsync(TestBench bench, Guid run, int position, int round, decimal residue) =>
        bench.WeighAsync(run, RunStep.Weigh(WeighingKind.After, position, round), TestBench.TareGrams(position) + residue);
}
