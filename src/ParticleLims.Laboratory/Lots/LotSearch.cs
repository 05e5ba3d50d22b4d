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
public sealed record LotPlace(DateTimeOffset BookedInAt, DateOnly MadeOn, Guid Id);

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

    /// <summary>
    /// A page after a place, the last booked in first; where a day of making is asked for, the last made first. The first page, without a
    /// place, also counts. Each question walks along one index: with a million lots a page takes some milliseconds, a rare part of a number
    /// one look through the index of numbers.
    /// </summary>
    public Task<LotSlice> GoOnAsync(Actor actor, LotQuestion question, LotPlace? after, int take, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.SeeLaboratory, async (data, _, token) =>
        {
            var lots = await NarrowedAsync(data, question, token);
            int? counted = after is null ? await lots.Select(lot => lot.Id).Take(MostCounted + 1).CountAsync(token) : null;
            var most = Math.Clamp(take, 1, 200);
            var byDay = question.MadeFrom is not null || question.MadeTo is not null;
            var page = byDay
                ? After(lots, after?.MadeOn, after?.Id).OrderByDescending(lot => lot.MadeOn).ThenByDescending(lot => lot.Id).Take(most + 1)
                : After(lots, after?.BookedInAt, after?.Id).OrderByDescending(lot => lot.BookedInAt).ThenByDescending(lot => lot.Id).Take(most + 1);
            var found = await Rows(data, page).ToListAsync(token);
            List<LotRow> rows = byDay ? [.. found.OrderByDescending(row => row.MadeOn).ThenByDescending(row => row.Id)] : found;
            return rows.Count > most
                ? new LotSlice(rows[..most], new LotPlace(rows[most - 1].BookedInAt, rows[most - 1].MadeOn, rows[most - 1].Id), counted)
                : new LotSlice(rows, null, counted);
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

    // A part that few numbers have is looked up in the index of numbers first: walking along the newest would meet all lots before the last of them.
    private static async Task<IQueryable<Lot>> NarrowedAsync(Storage.LaboratoryContext data, LotQuestion question, CancellationToken cancellation)
    {
        if (string.IsNullOrWhiteSpace(question.NumberPart))
        {
            return Asked(data, question);
        }

        var few = await Asked(data, new LotQuestion(question.NumberPart)).Select(lot => lot.Id).Take(MostCounted + 1).ToListAsync(cancellation);
        return few.Count > MostCounted ? Asked(data, question) : Asked(data, question with { NumberPart = null }).Where(lot => few.Contains(lot.Id));
    }

    // The first condition lets the index begin there; the second parts lots of the same instant or day.
    private static IQueryable<Lot> After(IQueryable<Lot> lots, DateTimeOffset? bookedIn, Guid? id) => bookedIn is { } at && id is { } key
        ? lots.Where(lot => lot.BookedInAt <= at).Where(lot => lot.BookedInAt < at || lot.Id < key)
        : lots;

    private static IQueryable<Lot> After(IQueryable<Lot> lots, DateOnly? madeOn, Guid? id) => madeOn is { } day && id is { } key
        ? lots.Where(lot => lot.MadeOn <= day).Where(lot => lot.MadeOn < day || lot.Id < key)
        : lots;

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
