using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Laboratory.Customers;

/// <summary>A customer as people write it.</summary>
public sealed record CustomerCard(string Name, string Address, string Contact)
{
    /// <summary>How it wants its certificates.</summary>
    public CertificateWishes Certificates { get; init; } = CertificateWishes.Usual;
}

/// <summary>Keeps the customers.</summary>
public sealed class CustomerKeeping(WritePath writing, ReadPath reading, ITemplateChoice templates)
{
    private static readonly DeedKind AddDeed = new("customers.add", "Customer added", Permission.KeepProducts);
    private static readonly DeedKind ChangeDeed = new("customers.change", "Customer changed", Permission.KeepProducts, ReasonRequired: true);

    /// <summary>Adds a customer.</summary>
    public Task<Guid> AddAsync(Actor actor, CustomerCard card, string? key, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(AddDeed, actor, key) { Asked = card }, async (scope, token) =>
        {
            await RequireAsync(scope, card, null, token);
            var customer = new Customer { Id = scope.NewId(), Name = card.Name.Trim(), Address = card.Address.Trim(), Contact = card.Contact.Trim(), Certificates = card.Certificates };
            scope.Data.Add(customer);
            scope.About("Customer", customer.Id, customer.Name);
            return customer.Id;
        }, cancellation);

    /// <summary>Changes a customer's name, address, contact or how it wants its certificates. Certificates already issued keep the old ones.</summary>
    public Task<bool> ChangeAsync(Actor actor, Guid id, CustomerCard card, string reason, long version, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(ChangeDeed, actor, Reason: reason), async (scope, token) =>
        {
            var customer = await scope.FindAsync<Customer>(id, "customer", token);
            DeedScope.RequireVersion(customer, version, customer.Name);
            await RequireAsync(scope, card, id, token);
            (customer.Name, customer.Address, customer.Contact, customer.Certificates) = (card.Name.Trim(), card.Address.Trim(), card.Contact.Trim(), card.Certificates);
            scope.About("Customer", customer.Id, customer.Name);
            return true;
        }, cancellation);

    /// <summary>All customers by name.</summary>
    public Task<List<Customer>> AllAsync(Actor actor, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.SeeLaboratory, (data, _, token) => data.Customers.OrderBy(customer => customer.Name).ToListAsync(token), cancellation);

    /// <summary>One customer; null when there is none.</summary>
    public Task<Customer?> FindAsync(Actor actor, Guid id, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.SeeLaboratory, (data, _, token) => data.Customers.FirstOrDefaultAsync(customer => customer.Id == id, token), cancellation);

    private async Task RequireAsync(DeedScope scope, CustomerCard card, Guid? self, CancellationToken cancellation)
    {
        if (string.IsNullOrWhiteSpace(card.Name) || string.IsNullOrWhiteSpace(card.Address))
        {
            throw new RefusedException("customer-incomplete", "A customer has a name and a postal address; both stand on certificates.", "name");
        }

        card.Certificates.Check();
        if (card.Certificates.Template is { } template)
        {
            await templates.RequireAsync(scope.Data, template, scope.Now, cancellation);
        }

        var name = card.Name.Trim();
        if (await scope.Data.Customers.AnyAsync(customer => customer.Name == name && customer.Id != self, cancellation))
        {
            throw new RefusedException("customer-name-used", $"There is a customer “{name}” already.", "name");
        }
    }
}
