using System.Security.Cryptography;
using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Certificates;
using ParticleLims.Laboratory.Customers;
using ParticleLims.Laboratory.Deliveries;
using ParticleLims.Laboratory.Outgoing;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Today;

namespace ParticleLims.Laboratory.Tests.Deliveries;

/// <summary>A small laboratory whose certificates go out by mail.</summary>
internal sealed class Mailroom(OpenedSmallLaboratory laboratory) : IAsyncDisposable
{
    private static readonly OutgoingWays Mail = new(new MailServer("mail.tarnfell.example", MailServer.UsualPort, MailSecurity.StartTls, null, "laboratory@tarnfell.example"), null);

    public OpenedSmallLaboratory Laboratory => laboratory;

    public SmallLaboratory Small => laboratory.Small;

    public Actor Quality => Small.People.QualityManager.Actor;

    public Actor Manager => Small.People.LaboratoryManager.Actor;

    public static async Task<Mailroom> OpenAsync(DatabaseKind kind, bool withServer = true)
    {
        var room = new Mailroom(await OpenedSmallLaboratory.OpenAsync(kind));
        if (withServer)
        {
            await room.OpenMailAsync();
        }

        return room;
    }

    public Task OpenMailAsync() => laboratory.Get<OutgoingKeeping>().ChangeAsync(Small.People.Administrator.Actor, Mail, "Customers want it", 0, default);

    public Task<Guid> AddContactAsync(string name, string address, string? language = null, bool receives = true) =>
        laboratory.Get<ContactKeeping>().AddAsync(Manager, Small.Customer, new ContactCard(name, address, language, receives), null, default);

    public async Task WishAsync(CertificateWishes wishes)
    {
        var customer = (await laboratory.Get<CustomerKeeping>().FindAsync(Manager, Small.Customer, default))!;
        await laboratory.Get<CustomerKeeping>().ChangeAsync(Manager, customer.Id, new CustomerCard(customer.Name, customer.Address, customer.Contact) { Certificates = wishes }, "They wrote so", customer.Version, default);
    }

    public async Task<Guid> IssueAsync()
    {
        var lot = await (await Small.BookInAsync(Small.Calcite)).ReleaseAsync(Powder.Calcite);
        return await Small.Desk.IssueAsync(lot.Id, lot.Sample.Id);
    }

    public async Task<Certificate> CertificateAsync(Guid id)
    {
        await using var data = laboratory.Data();
        return await data.Certificates.AsNoTracking().SingleAsync(one => one.Id == id);
    }

    /// <summary>Takes everything that waits, as the mail server would; the first queued first.</summary>
    public async Task<List<Letter>> SendAllAsync()
    {
        var due = await laboratory.Get<OutgoingSending>().DueAsync(laboratory.Running.Clock.GetUtcNow(), 100, default);
        foreach (var letter in due)
        {
            await laboratory.Get<OutgoingSending>().SentAsync(letter.Message.Id, "250 OK", default);
        }

        laboratory.Running.Clock.Advance(TimeSpan.FromMinutes(1));
        return due;
    }

    public Task<List<DeliveryRow>> DeliveriesAsync(Guid certificate) => laboratory.Get<DeliveryReading>().OfCertificateAsync(Quality, certificate, default);

    public async Task<IReadOnlyList<DeliveryRow>> StuckAsync() => (await laboratory.Get<TodayReading>().BoardAsync(Quality, DateOnly.FromDateTime(laboratory.Running.Clock.GetUtcNow().UtcDateTime), default)).Deliveries;

    public static string Hash(byte[] bytes) => Convert.ToHexStringLower(SHA256.HashData(bytes));

    public ValueTask DisposeAsync() => laboratory.DisposeAsync();
}
