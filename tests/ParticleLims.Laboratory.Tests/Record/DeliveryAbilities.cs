using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Customers;
using ParticleLims.Laboratory.Deliveries;
using ParticleLims.Laboratory.Record;
using static ParticleLims.Laboratory.Tests.Record.Ability;

namespace ParticleLims.Laboratory.Tests.Record;

/// <summary>What is done so that certificates reach their customers.</summary>
internal static class DeliveryAbilities
{
    private const string Why = "Asked for in writing";
    private static readonly Guid Nothing = Guid.CreateVersion7();
    private static readonly Guid[] Nobody = [];
    private static readonly (string Subject, string Text) Own = ("Certificate {certificate}", "{how}");
    private static readonly ContactCard NoName = new(" ", "goods-in@veldt.example", null, true);
    private static readonly ContactCard GoodsIn = new("Goods In", "goods-in@veldt.example", null, true);

    public static IReadOnlyList<Ability> All { get; } =
    [
        Does("customers.add-contact", Who.LaboratoryManager, "not-found", (stage, who) => stage.Get<ContactKeeping>().AddAsync(who, Nothing, NoName, null, default),
            stage => () => AddAsync(stage)),
        Does("customers.change-contact", Who.LaboratoryManager, "not-found", (stage, who) => stage.Get<ContactKeeping>().ChangeAsync(who, Nothing, GoodsIn, Why, 1, default), async stage =>
        {
            var contact = await AddAsync(stage);
            return () => stage.Get<ContactKeeping>().ChangeAsync(Manager(stage), contact, GoodsIn with { Language = "de" }, Why, 1, default);
        }),
        Does("customers.address-works", Who.LaboratoryManager, "not-found", (stage, who) => stage.Get<ContactKeeping>().AddressWorksAsync(who, Nothing, Why, 1, default), async stage =>
        {
            var (delivery, _) = await DeliveredAsync(stage);
            await stage.Get<Laboratory.Outgoing.OutgoingSending>().RefusedAsync(delivery.MessageId!.Value, "550 nobody of that name", default);
            return () => stage.Get<ContactKeeping>().AddressWorksAsync(Manager(stage), delivery.ContactId, Why, 2, default);
        }),
        Reads(Who.Staff, (stage, who) => stage.Get<ContactKeeping>().OfAsync(who, Nothing, default)),
        Does("deliveries.mail-text", Who.LaboratoryManager, "not-found", (stage, who) => stage.Get<MailTextKeeping>().ChangeAsync(who, Nothing, "en", Own, Why, 0, default),
            stage => () => stage.Get<MailTextKeeping>().ChangeAsync(Manager(stage), stage.Small.Customer, "en", Own, Why, 0, default)),
        Reads(Who.Staff, (stage, who) => stage.Get<MailTextKeeping>().OfAsync(who, Nothing, default)),
        Does("deliveries.send", Who.QualityManager, "not-found", (stage, who) => stage.Get<DeliverySending>().SendAsync(who, Nothing, Nobody, null, default), async stage =>
        {
            var (delivery, _) = await DeliveredAsync(stage);
            return () => stage.Get<DeliverySending>().SendAsync(stage.People.QualityManager.Actor, delivery.CertificateId, [delivery.ContactId], "again", default);
        }),
        Does("deliveries.settle", Who.QualityManager, "not-found", (stage, who) => stage.Get<DeliverySending>().SettleAsync(who, Nothing, Why, 1, default), async stage =>
        {
            var (delivery, _) = await DeliveredAsync(stage);
            return () => stage.Get<DeliverySending>().SettleAsync(stage.People.QualityManager.Actor, delivery.Id, "By telephone", 1, default);
        }),
        Reads(Who.Staff, (stage, who) => stage.Get<DeliveryReading>().OfCertificateAsync(who, Nothing, default)),
        Reads(Who.Staff, (stage, who) => stage.Get<DeliveryReading>().OfCustomerAsync(who, Nothing, 10, default)),
    ];

    private static Task<Guid> AddAsync(Stage stage) => stage.Get<ContactKeeping>().AddAsync(Manager(stage), stage.Small.Customer, GoodsIn, "contact", default);

    private static async Task<(CertificateDelivery Delivery, TestLot Lot)> DeliveredAsync(Stage stage)
    {
        await OutgoingAbilities.OpenMailAsync(stage);
        await AddAsync(stage);
        var lot = await (await stage.Small.BookInAsync(stage.Small.Calcite)).ReleaseAsync(Powder.Calcite);
        await stage.Desk.IssueAsync(lot.Id, lot.Sample.Id);
        await using var data = stage.Data();
        return (await data.CertificateDeliveries.SingleAsync(), lot);
    }

    private static Actor Manager(Stage stage) => stage.People.LaboratoryManager.Actor;
}
