using ParticleLims.Laboratory.Lots;

namespace ParticleLims.Laboratory.Tests.Lots;

public sealed class LotSearchTests
{
    private static readonly CancellationToken None = CancellationToken.None;

    [Theory]
    [EachDatabase]
    public async Task Going_on_from_place_to_place_shows_every_lot_once_also_those_of_the_same_instant(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var booked = new List<Guid>();
        for (var number = 0; number < 8; number++)
        {
            booked.Add(await laboratory.Small.BookInLotAsync(laboratory.Small.Calcite));
            if (number is 3)
            {
                laboratory.Running.Clock.Advance(TimeSpan.FromMinutes(1));
            }
        }

        var pages = await AllPagesAsync(laboratory, new LotQuestion(), 3);
        pages[0].Counted.ShouldBe(8);
        pages.Skip(1).ShouldAllBe(page => page.Counted == null);
        pages.SelectMany(page => page.Rows).Select(row => row.Id).ShouldBe(booked, ignoreOrder: true);
        pages.SelectMany(page => page.Rows).Select(row => row.BookedInAt).ShouldBeInOrder(SortDirection.Descending);
    }

    [Theory]
    [EachDatabase]
    public async Task Lots_asked_by_day_come_the_last_made_first_and_each_once(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        int[] days = [3, 1, 2, 2, 1, 3, 2];
        foreach (var (day, number) in days.Select((day, number) => (day, number)))
        {
            await BookInAsync(laboratory, $"TM-{number}", laboratory.Small.Calcite, null, new DateOnly(2026, 2, day));
        }

        var pages = await AllPagesAsync(laboratory, new LotQuestion(MadeFrom: new DateOnly(2026, 2, 1)), 2);
        pages.SelectMany(page => page.Rows).Select(row => row.MadeOn.Day).ShouldBe([3, 3, 2, 2, 2, 1, 1]);
        pages.SelectMany(page => page.Rows).Select(row => row.Number).Distinct().Count().ShouldBe(7);
    }

    [Theory]
    [EachDatabase]
    public async Task A_page_that_is_just_full_is_the_last(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        await laboratory.Small.BookInLotAsync(laboratory.Small.Calcite);
        await laboratory.Small.BookInLotAsync(laboratory.Small.Calcite);
        var page = await laboratory.Get<LotSearch>().GoOnAsync(laboratory.Small.People.Technician.Actor, new LotQuestion(), null, 2, None);
        page.Rows.Count.ShouldBe(2);
        page.Next.ShouldBeNull();
    }

    [Theory]
    [EachDatabase]
    public async Task Lots_are_found_by_a_part_of_the_number_in_any_case_by_product_state_and_day(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        var calcite = await BookInAsync(laboratory, "TM-26-0412a", small.Calcite, small.Customer, new DateOnly(2026, 2, 26));
        var starch = await BookInAsync(laboratory, "TM-26-0413", small.Starch, null, new DateOnly(2026, 2, 28));
        (await FindAsync(laboratory, new LotQuestion(NumberPart: "0412A"))).ShouldBe([calcite]);
        (await FindAsync(laboratory, new LotQuestion(ProductId: small.Starch.ProductId))).ShouldBe([starch]);
        (await FindAsync(laboratory, new LotQuestion(CustomerId: small.Customer))).ShouldBe([calcite]);
        (await FindAsync(laboratory, new LotQuestion(State: LotState.Released))).ShouldBeEmpty();
        (await FindAsync(laboratory, new LotQuestion(MadeFrom: new DateOnly(2026, 2, 26), MadeTo: new DateOnly(2026, 2, 27)))).ShouldBe([calcite]);
        (await FindAsync(laboratory, new LotQuestion(NumberPart: "%"))).ShouldBeEmpty();
    }

    private static Task<Guid> BookInAsync(OpenedSmallLaboratory laboratory, string number, TestMethod method, Guid? customer, DateOnly madeOn) =>
        laboratory.Get<LotReception>().BookInAsync(laboratory.Small.People.Technician.Actor, new NewLot(number, method.ProductId, customer, new LotParticulars(10.5m, madeOn)), null, None);

    private static async Task<List<Guid>> FindAsync(OpenedSmallLaboratory laboratory, LotQuestion question) =>
        [.. (await AllPagesAsync(laboratory, question, 50)).SelectMany(page => page.Rows).Select(row => row.Id)];

    private static async Task<List<LotSlice>> AllPagesAsync(OpenedSmallLaboratory laboratory, LotQuestion question, int take)
    {
        var pages = new List<LotSlice>();
        do
        {
            pages.Add(await laboratory.Get<LotSearch>().GoOnAsync(laboratory.Small.People.Technician.Actor, question, pages.LastOrDefault()?.Next, take, None));
        }
        while (pages[^1].Next is not null && pages.Count < 20);
        return pages;
    }
}
