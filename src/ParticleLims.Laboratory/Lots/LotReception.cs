using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Customers;
using ParticleLims.Laboratory.Products;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Settings;

namespace ParticleLims.Laboratory.Lots;

/// <summary>A lot as it is booked in.</summary>
/// <param name="Number">The mill's number; unique.</param>
/// <param name="ProductId">The product.</param>
/// <param name="CustomerId">Whose it will be; null for stock.</param>
/// <param name="Particulars">What was given with it.</param>
public sealed record NewLot(string Number, Guid ProductId, Guid? CustomerId, LotParticulars Particulars);

/// <summary>Books lots in.</summary>
public sealed class LotReception(WritePath writing)
{
    private static readonly DeedKind BookInDeed = new("lots.book-in", "Lot booked in", Permission.BookIn);

    /// <summary>Books a lot in; its number was never used before.</summary>
    public Task<Guid> BookInAsync(Actor actor, NewLot lot, string? key, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(BookInDeed, actor, key) { Asked = lot }, async (scope, token) =>
        {
            var number = lot.Number.Trim();
            RequireNumber(lot.Number);
            var given = lot.Particulars.Tidied;
            given.Require((await SettingsKeeping.OfAsync(scope.Data, token)).LocalDay(scope.Now));
            await RequireUnusedAsync(scope, number, token);
            await scope.FindAsync<Product>(lot.ProductId, "product", token);
            if (lot.CustomerId is { } customer)
            {
                await scope.FindAsync<Customer>(customer, "customer", token);
            }

            var added = new Lot
            {
                Id = scope.NewId(), Number = number, SearchNumber = SearchForm(number), ProductId = lot.ProductId, CustomerId = lot.CustomerId, Particulars = given, BookedInAt = scope.Now,
            };
            scope.Data.Add(added);
            scope.About("Lot", added.Id, added.Number);
            return added.Id;
        }, cancellation);

    /// <summary>Refuses a number that is none.</summary>
    internal static void RequireNumber(string number)
    {
        if (number.Trim().Length is 0 or > 60)
        {
            throw new RefusedException("lot-number", "A lot has a number of 1 to 60 characters.", "number");
        }
    }

    /// <summary>Refuses a number that a lot has already.</summary>
    internal static async Task RequireUnusedAsync(DeedScope scope, string number, CancellationToken cancellation)
    {
        var search = SearchForm(number);
        if (await scope.Data.Lots.FirstOrDefaultAsync(other => other.SearchNumber == search, cancellation) is { } used)
        {
            throw new RefusedException("lot-number-used", $"Lot {used.Number} was booked in on {used.BookedInAt:yyyy-MM-dd} already. Check the number on the sample's label.", "number");
        }
    }

    /// <summary>A lot number as it is compared and searched: upper case on both databases.</summary>
    public static string SearchForm(string number) => number.Trim().ToUpperInvariant();
}
