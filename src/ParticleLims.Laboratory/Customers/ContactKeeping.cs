using System.Net.Mail;
using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Laboratory.Customers;

/// <summary>A contact as people write it.</summary>
/// <param name="Name">Who it is, or which office.</param>
/// <param name="Address">The mail address.</param>
/// <param name="Language">The language of the mails by ISO 639-1; null for that of the customer's certificates.</param>
/// <param name="ReceivesCertificates">Whether each new certificate is mailed to it.</param>
public sealed record ContactCard(string Name, string Address, string? Language, bool ReceivesCertificates);

/// <summary>Keeps the people at the customers' to whom mails go.</summary>
public sealed class ContactKeeping(WritePath writing, ReadPath reading)
{
    private static readonly DeedKind AddDeed = new("customers.add-contact", "Contact of a customer added", Permission.KeepProducts);
    private static readonly DeedKind ChangeDeed = new("customers.change-contact", "Contact of a customer changed", Permission.KeepProducts, ReasonRequired: true);
    private static readonly DeedKind WorksDeed = new("customers.address-works", "Address of a contact works again", Permission.KeepProducts, ReasonRequired: true);

    /// <summary>Adds a contact.</summary>
    public Task<Guid> AddAsync(Actor actor, Guid customerId, ContactCard card, string? key, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(AddDeed, actor, key) { Asked = new { customerId, card } }, async (scope, token) =>
        {
            var customer = await scope.FindAsync<Customer>(customerId, "customer", token);
            await RequireAsync(scope, customerId, null, card, token);
            var contact = new CustomerContact { Id = scope.NewId(), CustomerId = customerId, Name = card.Name.Trim(), Address = card.Address.Trim(), Language = card.Language, ReceivesCertificates = card.ReceivesCertificates };
            scope.Data.Add(contact);
            scope.About(nameof(CustomerContact), contact.Id, $"{contact.Name}, {customer.Name}");
            return contact.Id;
        }, cancellation);

    /// <summary>Changes a contact. Another address counts as one that works.</summary>
    public Task<bool> ChangeAsync(Actor actor, Guid id, ContactCard card, string reason, long version, CancellationToken cancellation) =>
        ChangeAsync(new Deed(ChangeDeed, actor, Reason: reason), id, version, async (scope, contact, token) =>
        {
            await RequireAsync(scope, contact.CustomerId, id, card, token);
            if (contact.Address != card.Address.Trim())
            {
                contact.ForgetBounce();
            }

            (contact.Name, contact.Address, contact.Language, contact.ReceivesCertificates) = (card.Name.Trim(), card.Address.Trim(), card.Language, card.ReceivesCertificates);
        }, cancellation);

    /// <summary>Says that an address from which a mail came back works again, and how that is known.</summary>
    public Task<bool> AddressWorksAsync(Actor actor, Guid id, string reason, long version, CancellationToken cancellation) =>
        ChangeAsync(new Deed(WorksDeed, actor, Reason: reason), id, version, (_, contact, _) =>
        {
            if (contact.BouncedAt is null)
            {
                throw new RefusedException("address-works", $"No mail came back from {contact.Address}.");
            }

            contact.ForgetBounce();
            return Task.CompletedTask;
        }, cancellation);

    /// <summary>The contacts of a customer, by name.</summary>
    public Task<List<CustomerContact>> OfAsync(Actor actor, Guid customerId, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.SeeLaboratory, (data, _, token) => data.CustomerContacts.Where(contact => contact.CustomerId == customerId).OrderBy(contact => contact.Name).ThenBy(contact => contact.Address).ToListAsync(token), cancellation);

    private Task<bool> ChangeAsync(Deed deed, Guid id, long version, Func<DeedScope, CustomerContact, CancellationToken, Task> change, CancellationToken cancellation) =>
        writing.CarryOutAsync(deed, async (scope, token) =>
        {
            var contact = await scope.FindAsync<CustomerContact>(id, "contact", token);
            DeedScope.RequireVersion(contact, version, contact.Name);
            scope.About(nameof(CustomerContact), contact.Id, contact.Name);
            await change(scope, contact, token);
            return true;
        }, cancellation);

    private static async Task RequireAsync(DeedScope scope, Guid customerId, Guid? self, ContactCard card, CancellationToken cancellation)
    {
        if (string.IsNullOrWhiteSpace(card.Name))
        {
            throw new RefusedException("contact-name", "Say who it is, or which office.", "name");
        }

        var address = card.Address.Trim();
        if (address.Length > 320 || address.Any(char.IsControl) || address.Contains(',', StringComparison.Ordinal) || !MailAddress.TryCreate(address, out var read) || read.Address != address)
        {
            throw new RefusedException("mail-address", $"“{address}” is no mail address. One reads like goods-in@orrin.example.", "address");
        }

        if (card.Language is { } language)
        {
            CertificateWishes.RequireLanguage(language);
        }

        if (await scope.Data.CustomerContacts.AnyAsync(contact => contact.CustomerId == customerId && contact.Address == address && contact.Id != self, cancellation))
        {
            throw new RefusedException("contact-known", $"{address} is a contact of this customer already.", "address");
        }
    }
}
