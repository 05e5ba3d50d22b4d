using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Customers;
using ParticleLims.Laboratory.Products;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Laboratory.Lots;

/// <summary>What is looked for; null members ask nothing.</summary>
public sealed record LotQuestion(string? NumberPart = null, Guid? ProductId = null, Guid? CustomerId = null, LotState? State = null, DateOnly? MadeFrom = null, DateOnly? MadeTo = null);

/// <summary>A lot as a list shows it.</summary>
public sealed record LotRow(Guid Id, string Number, string ProductCode, string ProductName, string? CustomerName, LotState State, DateOnly MadeOn, DateTimeOffset BookedInAt, decimal QuantityKilograms);

/// <summary>One page of lots and how many there are in all.</summary>
public sealed record LotPage(IReadOnlyList<LotRow> Rows, int Total);

/// <summary>Finds lots.</summary>
public sealed class LotSearch(ReadPath reading)
{
    /// <summary>One page, newest first.</summary>
    public Task<LotPage> FindAsync(Actor actor, LotQuestion question, int skip, int take, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.SeeLaboratory, async (data, _, token) =>
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
            var total = await lots.CountAsync(token);
            var page = lots.OrderByDescending(lot => lot.BookedInAt).ThenByDescending(lot => lot.Id).Skip(skip).Take(Math.Clamp(take, 1, 200));
            return new LotPage(await Rows(data, page).ToListAsync(token), total);
        }, cancellation);

    /// <summary>One lot; null when there is none.</summary>
    public Task<LotRow?> FindAsync(Actor actor, Guid id, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.SeeLaboratory, (data, _, token) => Rows(data, data.Lots.Where(lot => lot.Id == id)).FirstOrDefaultAsync(token), cancellation);

    internal static IQueryable<LotRow> Rows(Storage.LaboratoryContext data, IQueryable<Lot> lots) =>
        from lot in lots
        join product in data.Products on lot.ProductId equals product.Id
        join customer in data.Customers on lot.CustomerId equals customer.Id into customers
        from customer in customers.DefaultIfEmpty()
        orderby lot.BookedInAt descending, lot.Id descending
        select new LotRow(lot.Id, lot.Number, product.Code, product.Name, customer == null ? null : customer.Name, lot.State, lot.MadeOn, lot.BookedInAt, lot.QuantityKilograms);
}
