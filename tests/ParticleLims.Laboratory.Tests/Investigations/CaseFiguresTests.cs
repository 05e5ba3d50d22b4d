using ParticleLims.Laboratory.Investigations;
using ParticleLims.Laboratory.Runs;
using ParticleLims.Laboratory.Tests.Runs;

namespace ParticleLims.Laboratory.Tests.Investigations;

/// <summary>The figures of the cases are the cases themselves, counted.</summary>
public sealed class CaseFiguresTests
{
    [Theory]
    [EachDatabase]
    public async Task Each_kind_of_case_is_counted_for_itself_by_product_technician_and_sieve(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (small, desk) = (laboratory.Small, laboratory.Small.Desk);
        var from = laboratory.Running.Clock.GetUtcNow();
        await (await small.BookInAsync(small.Calcite)).ReleaseAsync(Powder.Calcite);
        var confirmed = await (await small.BookInAsync(small.Calcite)).SubmitAsync(Powder.CoarseCalcite);
        var explained = await (await small.BookInAsync(small.Calcite)).SubmitAsync(Powder.CoarseCalcite);
        var twice = await small.WithSpecificationAsync(small.Spice, draft => draft with { Determinations = 2, Limits = [draft.Limits[0] with { GreatestSpread = 1m }] });
        await (await small.BookInAsync(twice)).SubmitAllAsync(2.0m, 3.5m);
        laboratory.Running.Clock.Advance(TimeSpan.FromDays(2));
        await desk.ConcludeAsync(confirmed.Id, InvestigationConclusion.Confirmed);
        await desk.ConcludeAsync(explained.Id, InvestigationConclusion.LaboratoryCause);
        await desk.InvalidateAsync(explained.RunId, "The jar had stood open");

        var figures = await FiguresAsync(small, from, from.AddDays(7));
        (figures.All.Runs, figures.All.OutOfSpecification, figures.All.Apart, figures.All.LaboratoryCauses, figures.All.OutOfTrend).ShouldBe((5, 2, 1, 1, 0));
        (figures.Invalidated, figures.Open, figures.OldestOpenDays).ShouldBe((1, 1, 2));
        figures.MedianDaysToClose!.Value.ShouldBe(2.0, 0.1);
        figures.Conclusions.ShouldBe([(InvestigationConclusion.Confirmed, 1), (InvestigationConclusion.LaboratoryCause, 1)]);
        figures.Causes.ShouldBe([(LaboratoryCauseKind.Preparation, 1)]);
        figures.Products.Select(share => (share.Runs, share.OutOfSpecification, share.Apart)).ShouldBe([(3, 2, 0), (2, 0, 1)]);
        figures.Technicians.ShouldHaveSingleItem().ShouldBe(figures.All with { Name = figures.Technicians[0].Name });
        figures.Sieves.ShouldAllBe(share => share.OutOfSpecification + share.Apart > 0);
        figures.Sieves.ShouldContain(share => share.Apart == 1 && share.Runs == 2);

        await using var data = laboratory.Data();
        data.Investigations.Count(one => one.Kind == InvestigationKind.DeterminationsApart).ShouldBe(figures.All.Apart);
        data.Investigations.Count(one => one.Kind == InvestigationKind.OutOfSpecification).ShouldBe(figures.All.OutOfSpecification);
    }

    [Theory]
    [EachDatabase]
    public async Task Only_what_happened_in_the_asked_days_is_counted_and_days_that_run_backwards_are_refused(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        var from = laboratory.Running.Clock.GetUtcNow();
        await (await small.BookInAsync(small.Calcite)).SubmitAsync(Powder.CoarseCalcite);
        var before = await FiguresAsync(small, from.AddDays(-7), from);
        (before.All.Runs, before.All.OutOfSpecification, before.OldestOpenDays, before.MedianDaysToClose).ShouldBe((0, 0, null, null));
        await laboratory.ShouldRefuseAsync("days", () => FiguresAsync(small, from, from));
    }

    [Theory]
    [EachDatabase]
    public async Task Runs_given_up_and_weighings_taken_again_are_counted_although_they_open_no_case(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (small, bench) = (laboratory.Small, laboratory.Small.Bench());
        var from = laboratory.Running.Clock.GetUtcNow();
        var lot = await small.BookInAsync(small.Calcite);
        await bench.StartAsync(lot.RunId, lot.Method);
        await bench.StepAsync(lot.RunId, Powder.Calcite);
        await bench.WeighAgainAsync(lot.RunId, WeighingKind.Empty, 1, TestBench.TareGrams(1), "The pan was not clean");
        await small.Desk.AbandonAsync(lot.RunId);
        var figures = await FiguresAsync(small, from, from.AddDays(1));
        (figures.Abandoned, figures.WeighedAgain, figures.All.Runs, figures.All.OutOfSpecification).ShouldBe((1, 1, 0, 0));
        (await FiguresAsync(small, from.AddDays(1), from.AddDays(2))).Abandoned.ShouldBe(0);
    }

    private static Task<CaseFigures> FiguresAsync(SmallLaboratory small, DateTimeOffset from, DateTimeOffset until) => small.Get<CaseFiguresReading>().OfAsync(small.People.QualityManager.Actor, from, until, default);
}
