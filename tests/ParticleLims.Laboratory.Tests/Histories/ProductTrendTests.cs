using ParticleLims.Laboratory.Histories;

namespace ParticleLims.Laboratory.Tests.Histories;

/// <summary>Whoever decides on a lot sees what its product showed before.</summary>
public sealed class ProductTrendTests
{
    [Theory]
    [EachDatabase]
    public async Task The_runs_before_a_lot_stand_beside_its_own_and_are_held_against_its_limits(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (small, trend, quality) = (laboratory.Small, laboratory.Small.Get<ProductTrendReading>(), laboratory.Small.People.QualityManager.Actor);
        var empty = await small.BookInAsync(small.Spice);
        (await trend.OfAsync(quality, empty.Id, default)).ShouldBeNull("no run of the lot is in");
        foreach (var percent in (decimal[])[2.0m, 2.2m, 2.4m])
        {
            laboratory.Running.Clock.Advance(TimeSpan.FromHours(1));
            await (await (await small.BookInAsync(small.Spice)).SubmitAsync(Powder.SpiceCoarser(percent))).AcceptAsync();
        }

        await (await small.BookInAsync(small.Calcite)).SubmitAsync(Powder.Calcite);
        var notAccepted = await (await small.BookInAsync(small.Spice)).SubmitAsync(Powder.SpiceCoarser(3.0m));
        laboratory.Running.Clock.Advance(TimeSpan.FromHours(1));
        var lot = await (await small.BookInAsync(small.Spice)).SubmitAsync(Powder.SpiceCoarser(8.0m));
        laboratory.Running.Clock.Advance(TimeSpan.FromHours(1));
        await (await (await small.BookInAsync(small.Spice)).SubmitAsync(Powder.SpiceCoarser(2.6m))).AcceptAsync();

        var shown = (await trend.OfAsync(quality, lot.Id, default))!;
        shown.Limits.ShouldHaveSingleItem().Words.ShouldBe("Retained on 500 µm");
        shown.Runs.Select(run => (run.Verdicts.ShouldHaveSingleItem().Rounded, run.OfThisLot)).ShouldBe([("2.0", false), ("2.2", false), ("2.4", false), ("8.0", true)], "neither what nobody accepted, nor another product, nor what came later");
        shown.Runs.ShouldBe(shown.Runs.OrderBy(run => run.At));
        (await trend.OfAsync(quality, notAccepted.Id, default))!.Runs.Count.ShouldBe(4, "a lot's own runs count before they are accepted");
    }
}
