using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Customers;
using ParticleLims.Laboratory.Products;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Laboratory.Lots;

/// <summary>What is looked for; null members ask nothing.</summary>
public sealed record LotQuestion(string? NumberPart = null, Guid? ProductId = null, Guid? CustomerId = null, LotState? State = null, DateOnly? MadeFrom = null, DateOnly? MadeTo = null);

/// <summary>A lot as a list shows it.</summary>
public sealed record LotRow(
    Guid Id, string Number, string ProductCode, string ProductName, string? CustomerName, LotState State, DateOnly MadeOn, DateTimeOffset BookedInAt, decimal QuantityKilograms,
    Guid ProductId, Guid? CustomerId, string? CustomerReference);

/// <summary>One page of lots and how many there are in all.</summary>
public sealed record LotPage(IReadOnlyList<LotRow> Rows, int Total);

/// <summary>A lot's place in the list, from which the next page goes on.</summary>
public sealed record LotPlace(DateTimeOffset BookedInAt, Guid Id);

/// <summary>A page of lots that goes on from a place: as quick at the millionth lot as at the first.</summary>
/// <param name="Rows">The lots, newest first.</param>
/// <param name="Next">From where the next page goes on; null at the end.</param>
/// <param name="Counted">How many answer the question, counted up to <see cref="LotSearch.MostCounted"/>; null on a further page.</param>
public sealed record LotSlice(IReadOnlyList<LotRow> Rows, LotPlace? Next, int? Counted);

/// <summary>Finds lots.</summary>
public sealed class LotSearch(ReadPath reading)
{
    /// <summary>Further lots are not counted; a list says "more than".</summary>
    public const int MostCounted = 1_000;

    /// <summary>A page after a place, newest first. The first page, without a place, also counts.</summary>
    public Task<LotSlice> GoOnAsync(Actor actor, LotQuestion question, LotPlace? after, int take, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.SeeLaboratory, async (data, _, token) =>
        {
            var lots = Asked(data, question);
            int? counted = after is null ? await lots.Select(lot => lot.Id).Take(MostCounted + 1).CountAsync(token) : null;
            if (after is { } place)
            {
                // The first condition lets the index begin there; the second parts lots booked in at the same instant.
                lots = lots.Where(lot => lot.BookedInAt <= place.BookedInAt).Where(lot => lot.BookedInAt < place.BookedInAt || lot.Id < place.Id);
            }

            var page = lots.OrderByDescending(lot => lot.BookedInAt).ThenByDescending(lot => lot.Id).Take(Math.Clamp(take, 1, 200) + 1);
            var rows = await Rows(data, page).ToListAsync(token);
            var more = rows.Count > Math.Clamp(take, 1, 200);
            rows = more ? rows[..^1] : rows;
            return new LotSlice(rows, more ? new LotPlace(rows[^1].BookedInAt, rows[^1].Id) : null, counted);
        }, cancellation);

    /// <summary>One page, newest first.</summary>
    public Task<LotPage> FindAsync(Actor actor, LotQuestion question, int skip, int take, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.SeeLaboratory, async (data, _, token) =>
        {
            var lots = Asked(data, question);
            var total = await lots.CountAsync(token);
            var page = lots.OrderByDescending(lot => lot.BookedInAt).ThenByDescending(lot => lot.Id).Skip(skip).Take(Math.Clamp(take, 1, 200));
            return new LotPage(await Rows(data, page).ToListAsync(token), total);
        }, cancellation);

    /// <summary>One lot; null when there is none.</summary>
    public Task<LotRow?> FindAsync(Actor actor, Guid id, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.SeeLaboratory, (data, _, token) => Rows(data, data.Lots.Where(lot => lot.Id == id)).FirstOrDefaultAsync(token), cancellation);

    private static IQueryable<Lot> Asked(Storage.LaboratoryContext data, LotQuestion question)
    {
        var lots = data.Lots.AsQueryable();
        if (!string.IsNullOrWhiteSpace(question.NumberPart))
        {
            var part = LotReception.SearchForm(question.NumberPart);
            lots = lots.Where(lot => lot.SearchNumber.Contains(part));
        }

        lots = question.ProductId is { } product ? lots.Where(lot => lot.ProductId == product) : lots;
        lots = question.CustomerId is { } customer ? lots.Where(lot => lot.CustomerId == customer) : lots;
        lots = question.State is { } state ? lots.Where(lot => lot.State == state) : lots;
        lots = question.MadeFrom is { } from ? lots.Where(lot => lot.MadeOn >= from) : lots;
        lots = question.MadeTo is { } to ? lots.Where(lot => lot.MadeOn <= to) : lots;
        return lots;
    }

    internal static IQueryable<LotRow> Rows(Storage.LaboratoryContext data, IQueryable<Lot> lots) =>
        from lot in lots
        join product in data.Products on lot.ProductId equals product.Id
        join customer in data.Customers on lot.CustomerId equals customer.Id into customers
        from customer in customers.DefaultIfEmpty()
        orderby lot.BookedInAt descending, lot.Id descending
        select new LotRow(lot.Id, lot.Number, product.Code, product.Name, customer == null ? null : customer.Name, lot.State, lot.MadeOn, lot.BookedInAt, lot.QuantityKilograms, lot.ProductId, lot.CustomerId, lot.CustomerReference);
}
