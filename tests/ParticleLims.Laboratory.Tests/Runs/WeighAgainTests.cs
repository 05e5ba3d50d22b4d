using ParticleLims.Analysis.Quantities;
using ParticleLims.Laboratory.Runs;

namespace ParticleLims.Laboratory.Tests.Runs;

/// <summary>A mistaken weighing is taken again with a reason as long as the powder lies as it lay then; both stay.</summary>
public sealed class WeighAgainTests
{
    [Theory]
    [EachDatabase]
    public async Task Both_weighings_stay_and_the_later_one_counts(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (lot, bench) = await StartedAsync(laboratory, steps: 1);
        await bench.WeighAgainAsync(lot.RunId, WeighingKind.Empty, 1, 260.2m, "Dust on the frame");
        await bench.WeighAgainAsync(lot.RunId, WeighingKind.Empty, 1, 260.3m, "Dust on the frame still");
        var run = (await bench.ViewAsync(lot.RunId)).Run;
        run.Weighings.Count.ShouldBe(3);
        run.StandingWeighings.ShouldHaveSingleItem().Mass.ShouldBe(Mass.FromGrams(260.3m));
        (await bench.ViewAsync(lot.RunId)).Findings.Count.ShouldBe(2, "the reviewer looks at both corrections");
    }

    [Theory]
    [EachDatabase]
    public async Task A_weighing_that_was_superseded_cannot_be_superseded_again(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (lot, bench) = await StartedAsync(laboratory, steps: 1);
        var first = (await bench.ViewAsync(lot.RunId)).Run.Weighings.Single();
        await bench.WeighAgainAsync(lot.RunId, WeighingKind.Empty, 1, 260.2m, "Dust on the frame");
        var small = laboratory.Small;
        await laboratory.ShouldRefuseAsync("weighing-superseded", () => small.Get<RunWeighing>().TakeAgainAsync(
            small.People.Technician.Actor, lot.RunId, first.Id, bench.Reading(260.3m), "A second tab", "tab-2", default));
    }

    [Theory]
    [EachDatabase("   ")]
    [EachDatabase("dust")]
    [EachDatabase("")]
    public async Task A_reason_is_asked_for(DatabaseKind kind, string reason)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (lot, bench) = await StartedAsync(laboratory, steps: 1);
        await laboratory.ShouldRefuseAsync("reason-missing", () => bench.WeighAgainAsync(lot.RunId, WeighingKind.Empty, 1, 260.2m, reason));
    }

    [Theory]
    [EachDatabase(1, WeighingKind.Empty, true)]
    [EachDatabase(2, WeighingKind.Empty, false)]
    [EachDatabase(2, WeighingKind.Loaded, true)]
    [EachDatabase(3, WeighingKind.Loaded, false)]
    [EachDatabase(4, WeighingKind.After, true)]
    [EachDatabase(5, WeighingKind.After, true)]
    [EachDatabase(6, WeighingKind.After, false)]
    public async Task A_weighing_can_be_taken_again_until_the_powder_moves_on(DatabaseKind kind, int steps, WeighingKind weighing, bool may)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (lot, bench) = await StartedAsync(laboratory, steps);
        var grams = (await bench.ViewAsync(lot.RunId)).Run.Find(weighing, 1)!.Mass.Grams;
        if (may)
        {
            await bench.WeighAgainAsync(lot.RunId, weighing, 1, grams, "The draught shield was open");
        }
        else
        {
            await laboratory.ShouldRefuseAsync("weighing-past", () => bench.WeighAgainAsync(lot.RunId, weighing, 1, grams, "The draught shield was open"));
        }
    }

    [Theory]
    [EachDatabase]
    public async Task A_returned_run_is_corrected_at_the_reviewers_word_and_submitted_again(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        var lot = await (await small.BookInAsync(small.Calcite)).SubmitAsync(Powder.Calcite);
        var bench = small.Bench();
        await laboratory.ShouldRefuseAsync("run-state", () => bench.WeighAgainAsync(lot.RunId, WeighingKind.After, 1, 266.1m, "Still submitted"));
        await small.Desk.ReturnAsync(lot.RunId);
        (await bench.ViewAsync(lot.RunId)).Run.State.ShouldBe(RunState.Returned);
        var before = (await bench.ViewAsync(lot.RunId)).Stored!.Stored;
        await bench.WeighAgainAsync(lot.RunId, WeighingKind.After, 4, TestBench.TareGrams(4) + 0.03m, "The reviewer asked for it");
        await bench.SubmitAsync(lot.RunId);
        var view = await bench.ViewAsync(lot.RunId);
        view.Run.State.ShouldBe(RunState.Submitted);
        view.Stored!.Stored.Id.ShouldNotBe(before.Id, "the first evaluation stays and a second one is stored");
        view.Stored.SameBits.ShouldBeTrue();
        await using var data = laboratory.Data();
        data.Evaluations.Count(evaluation => evaluation.RunId == lot.RunId).ShouldBe(2);
    }

    private static async Task<(TestLot Lot, TestBench Bench)> StartedAsync(OpenedSmallLaboratory laboratory, int steps)
    {
        var lot = await laboratory.Small.BookInAsync(laboratory.Small.Calcite);
        var bench = laboratory.Small.Bench();
        await bench.StartAsync(lot.RunId, lot.Method);
        for (var step = 0; step < steps; step++)
        {
            await bench.StepAsync(lot.RunId, Powder.Calcite);
        }

        return (lot, bench);
    }
}
