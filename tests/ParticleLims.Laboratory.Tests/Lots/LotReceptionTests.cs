using ParticleLims.Laboratory.Lots;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Laboratory.Tests.Lots;

public sealed class LotReceptionTests
{
    [Theory]
    [EachDatabase]
    public async Task A_lot_number_is_used_once_however_it_is_written(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        await BookInAsync(laboratory, Lot(laboratory) with { Number = "Tä-4711" });
        foreach (var number in (string[])["Tä-4711", " Tä-4711 ", "tä-4711", "TÄ-4711"])
        {
            var refusal = await laboratory.ShouldRefuseAsync("lot-number-used", () => BookInAsync(laboratory, Lot(laboratory) with { Number = number }));
            refusal.Message.ShouldBe("Lot Tä-4711 was booked in on 2026-03-02 already. Check the number on the sample's label.");
            refusal.Member.ShouldBe("number");
        }

        await BookInAsync(laboratory, Lot(laboratory) with { Number = "Tä-4712" });
    }

    [Theory]
    [EachDatabase]
    public async Task Of_those_who_book_in_the_same_number_at_the_same_moment_one_succeeds(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var before = await laboratory.EventsAsync();
        var codes = await Task.WhenAll(Enumerable.Range(0, 6).Select(_ => Task.Run(() => CodeOfAsync(() => BookInAsync(laboratory, Lot(laboratory))))));
        codes.Count(code => code is null).ShouldBe(1);
        codes.OfType<string>().ShouldAllBe(code => code == "lot-number-used");
        (await laboratory.EventsAsync()).ShouldBe(before + 1);
        (await laboratory.VerifyRecordAsync()).Fault.ShouldBeNull();
    }

    [Theory]
    [EachDatabase]
    public async Task A_lot_has_a_number_and_a_quantity_and_both_can_be_true(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        foreach (var number in (string[])["", "   ", "\t", new string('7', 61)])
        {
            await laboratory.ShouldRefuseAsync("lot-number", () => BookInAsync(laboratory, Lot(laboratory) with { Number = number }));
        }

        foreach (var quantity in (decimal[])[0m, -0.001m, -1250m, 10_000_000.001m, decimal.MaxValue])
        {
            await laboratory.ShouldRefuseAsync("lot-quantity", () => BookInAsync(laboratory, Lot(laboratory) with { Particulars = new(quantity, new DateOnly(2026, 3, 1)) }));
        }

        await BookInAsync(laboratory, Lot(laboratory) with { Number = new string('7', 60), Particulars = new(0.001m, new DateOnly(2026, 3, 1)) });
    }

    [Theory]
    [EachDatabase]
    public async Task A_lot_is_of_a_product_and_for_a_customer_that_there_are(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        (await laboratory.ShouldRefuseAsync("not-found", () => BookInAsync(laboratory, Lot(laboratory) with { ProductId = Guid.CreateVersion7() }))).Message.ShouldContain("product");
        (await laboratory.ShouldRefuseAsync("not-found", () => BookInAsync(laboratory, Lot(laboratory) with { CustomerId = Guid.CreateVersion7() }))).Message.ShouldContain("customer");
        await BookInAsync(laboratory, Lot(laboratory) with { CustomerId = null });
    }

    private static NewLot Lot(OpenedSmallLaboratory laboratory) =>
        new("4711", laboratory.Small.Calcite.ProductId, laboratory.Small.Customer, new LotParticulars(1250.5m, new DateOnly(2026, 3, 1)));

    private static Task<Guid> BookInAsync(OpenedSmallLaboratory laboratory, NewLot lot) =>
        laboratory.Get<LotReception>().BookInAsync(laboratory.Small.People.Technician.Actor, lot, null, default);

    private static async Task<string?> CodeOfAsync(Func<Task> act)
    {
        try
        {
            await act();
            return null;
        }
        catch (RefusedException refused)
        {
            return refused.Code;
        }
    }
}
