using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Certificates;
using ParticleLims.Laboratory.Customers;
using ParticleLims.Laboratory.Deliveries;
using ParticleLims.Laboratory.Outgoing;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Laboratory.Tests.Deliveries;

/// <summary>Certificates reach the customer's contacts by mail, and whoever received one hears what becomes of it.</summary>
public sealed class DeliveryTests
{
    [Theory]
    [EachDatabase]
    public async Task A_certificate_is_queued_in_the_deed_that_issues_it_for_each_contact_that_receives_them_in_its_language_with_the_stored_bytes(DatabaseKind kind)
    {
        await using var room = await Mailroom.OpenAsync(kind);
        await room.WishAsync(CertificateWishes.Usual with { TwinByMail = true });
        await room.AddContactAsync("Ann Orme", "ann@veldt.example");
        await room.AddContactAsync("Wareneingang", "bernd@veldt.example", "de");
        await room.AddContactAsync("Nobody", "nobody@veldt.example", receives: false);
        var certificate = await room.CertificateAsync(await room.IssueAsync());
        await using (var data = room.Laboratory.Data())
        {
            var issued = await data.Events.SingleAsync(one => one.Code == "certificates.issue");
            issued.Changes.ShouldContain("\"thing\":\"OutgoingMessage\"");
            issued.Changes.ShouldContain("\"thing\":\"CertificateDelivery\"");
        }

        (await room.DeliveriesAsync(certificate.Id)).Select(row => (row.Delivery.ContactName, row.State)).ShouldBe([("Ann Orme", DeliveryState.Queued), ("Wareneingang", DeliveryState.Queued)]);
        var letters = (await room.SendAllAsync()).ToDictionary(letter => letter.Message.Addressee);
        letters.Keys.ShouldBe(["ann@veldt.example", "bernd@veldt.example"], ignoreOrder: true);
        foreach (var letter in letters.Values)
        {
            letter.Files.Select(file => (file.FileName, Mailroom.Hash(file.Bytes))).ShouldBe([("C-26-00001.pdf", certificate.FileHash), ("C-26-00001.json", certificate.ContentHash)]);
            letter.Message.Text.ShouldContain($"/verify/{certificate.VerifyToken}");
            letter.Message.Text.ShouldNotContain("{", customMessage: "every place is filled in");
        }

        letters["ann@veldt.example"].Message.Subject.ShouldBe($"Certificate of analysis C-26-00001, lot {certificate.LotNumber}");
        letters["bernd@veldt.example"].Message.Subject.ShouldBe($"Analysenzertifikat C-26-00001, Los {certificate.LotNumber}");
        letters["bernd@veldt.example"].Message.Text.ShouldContain("Guten Tag Wareneingang,");
        (await room.DeliveriesAsync(certificate.Id)).ShouldAllBe(row => row.State == DeliveryState.Sent && row.At != null);
        (await room.Laboratory.VerifyRecordAsync()).Fault.ShouldBeNull();
    }

    [Theory]
    [EachDatabase]
    public async Task A_refused_issue_mails_nobody(DatabaseKind kind)
    {
        await using var room = await Mailroom.OpenAsync(kind);
        await room.AddContactAsync("Ann Orme", "ann@veldt.example");
        var certificate = await room.CertificateAsync(await room.IssueAsync());
        await room.SendAllAsync();
        await room.Laboratory.ShouldRefuseAsync("certificate-issued", () => room.Small.Desk.IssueAsync(certificate.LotId, certificate.SampleId));
        (await room.SendAllAsync()).ShouldBeEmpty();
    }

    [Theory]
    [EachDatabase]
    public async Task Whoever_received_it_hears_of_each_change_in_its_language_also_when_it_asked_for_no_more(DatabaseKind kind)
    {
        await using var room = await Mailroom.OpenAsync(kind);
        var (issuing, life) = (room.Small.Get<CertificateIssue>(), room.Small.Get<CertificateLife>());
        await room.AddContactAsync("Ann Orme", "ann@veldt.example");
        var leaving = await room.AddContactAsync("Bernd Kolb", "bernd@veldt.example", "de");
        var first = await room.CertificateAsync(await room.IssueAsync());
        (await room.SendAllAsync()).Count.ShouldBe(2);
        await room.AddContactAsync("Late Comer", "late@veldt.example", "fr");
        await room.Small.Get<ContactKeeping>().ChangeAsync(room.Manager, leaving, new ContactCard("Bernd Kolb", "bernd@veldt.example", "de", false), "He wants no more", 1, default);

        await life.SuspendAsync(room.Quality, first.Id, "The customer found lumps", 1, default);
        var suspended = (await room.SendAllAsync()).ToDictionary(letter => letter.Message.Addressee);
        suspended.Keys.ShouldBe(["ann@veldt.example", "bernd@veldt.example"], ignoreOrder: true);
        suspended["ann@veldt.example"].Message.Text.ShouldContain("Reason: The customer found lumps");
        suspended["bernd@veldt.example"].Message.Subject.ShouldBe($"Zertifikat C-26-00001 ist ausgesetzt, Los {first.LotNumber}");
        suspended.Values.ShouldAllBe(letter => letter.Files.Count == 0 && letter.Message.Text.Contains($"/verify/{first.VerifyToken}"));

        await life.ReinstateAsync(room.Quality, first.Id, "Lumps from damp storage there", 2, default);
        (await room.SendAllAsync()).Select(letter => letter.Message.Subject).ShouldBe([$"Certificate C-26-00001 counts again, lot {first.LotNumber}", $"Zertifikat C-26-00001 gilt wieder, Los {first.LotNumber}"], ignoreOrder: true);

        var second = await room.CertificateAsync(await issuing.ReviseAsync(room.Quality, first.Id, "The customer's reference", "It was another order", 3, null, default));
        var revised = (await room.SendAllAsync()).ToDictionary(letter => letter.Message.Addressee);
        revised["ann@veldt.example"].Message.Subject.ShouldBe($"Certificate C-26-00002 takes the place of an earlier one, lot {first.LotNumber}");
        revised["ann@veldt.example"].Message.Text.ShouldContain("Replaced: C-26-00001, revision 1. The customer's reference. Reason: It was another order");
        Mailroom.Hash(revised["ann@veldt.example"].Files.ShouldHaveSingleItem().Bytes).ShouldBe(second.FileHash);
        revised["bernd@veldt.example"].Message.Subject.ShouldBe($"Zertifikat C-26-00002 ersetzt ein früheres, Los {first.LotNumber}");
        revised["bernd@veldt.example"].Files.ShouldBeEmpty("he asked for no more of them");
        revised["late@veldt.example"].Message.Subject.ShouldBe($"Certificat d’analyse C-26-00002, lot {first.LotNumber}");

        await issuing.WithdrawAsync(room.Quality, second.Id, "The wrong sample was divided", 1, default);
        var withdrawn = await room.SendAllAsync();
        withdrawn.Select(letter => letter.Message.Addressee).ShouldBe(["ann@veldt.example", "bernd@veldt.example", "late@veldt.example"], ignoreOrder: true);
        withdrawn.Single(letter => letter.Message.Addressee.StartsWith("late", StringComparison.Ordinal)).Message.Text.ShouldContain("Motif : The wrong sample was divided");
    }

    [Theory]
    [EachDatabase]
    public async Task A_customer_that_wants_a_link_alone_gets_no_file(DatabaseKind kind)
    {
        await using var room = await Mailroom.OpenAsync(kind);
        await room.WishAsync(CertificateWishes.Usual with { LinkOnly = true, Language = "es" });
        await room.AddContactAsync("Ann Orme", "ann@veldt.example");
        await room.IssueAsync();
        var letter = (await room.SendAllAsync()).ShouldHaveSingleItem();
        letter.Files.ShouldBeEmpty();
        letter.Message.Text.ShouldContain("Lo encontrará, tras iniciar sesión, en http");
    }

    [Theory]
    [EachDatabase]
    public async Task Without_a_mail_server_it_is_written_that_nobody_was_told_until_it_is_sent_by_hand(DatabaseKind kind)
    {
        await using var room = await Mailroom.OpenAsync(kind, withServer: false);
        var sending = room.Small.Get<DeliverySending>();
        var contact = await room.AddContactAsync("Ann Orme", "ann@veldt.example");
        var id = await room.IssueAsync();
        var row = (await room.StuckAsync()).ShouldHaveSingleItem();
        (row.State, row.Words).ShouldBe((DeliveryState.NotQueued, "No mail server is set."));
        room.Laboratory.Running.Clock.Advance(TimeSpan.FromMinutes(1));
        await room.Laboratory.ShouldRefuseAsync("not-queued", () => sending.SendAsync(room.Quality, id, [contact], null, default));
        await room.OpenMailAsync();
        await room.Laboratory.ShouldRefuseAsync("contacts-missing", () => sending.SendAsync(room.Quality, id, [Guid.CreateVersion7()], null, default));
        (await sending.SendAsync(room.Quality, id, [contact], "once", default)).ShouldBe(1);
        (await sending.SendAsync(room.Quality, id, [contact], "once", default)).ShouldBe(1, "the same key asks for the same mail");
        (await room.SendAllAsync()).ShouldHaveSingleItem().Files.Count.ShouldBe(1);
        (await room.StuckAsync()).ShouldBeEmpty();

        await room.Small.Get<CertificateLife>().SuspendAsync(room.Quality, id, "The customer found lumps", 1, default);
        await room.Laboratory.ShouldRefuseAsync("certificate-state", () => sending.SendAsync(room.Quality, id, [contact], null, default));
    }

    [Theory]
    [EachDatabase]
    public async Task Whoever_got_it_in_another_way_hears_of_its_end_too(DatabaseKind kind)
    {
        await using var room = await Mailroom.OpenAsync(kind, withServer: false);
        await room.AddContactAsync("Ann Orme", "ann@veldt.example");
        var id = await room.IssueAsync();
        var delivery = (await room.DeliveriesAsync(id)).Single().Delivery;
        await room.Small.Get<DeliverySending>().SettleAsync(room.Quality, delivery.Id, "Handed to the driver", delivery.Version, default);
        await room.Laboratory.ShouldRefuseAsync("delivery-settled", () => room.Small.Get<DeliverySending>().SettleAsync(room.Quality, delivery.Id, "Once more", delivery.Version + 1, default));
        await room.OpenMailAsync();
        await room.Small.Get<CertificateIssue>().WithdrawAsync(room.Quality, id, "The wrong sample was divided", 1, default);
        (await room.SendAllAsync()).ShouldHaveSingleItem().Message.Subject.ShouldStartWith("Certificate C-26-00001 is withdrawn");
    }

    [Theory]
    [EachDatabase]
    public async Task A_mail_that_came_back_marks_its_delivery_and_the_address_until_there_is_another(DatabaseKind kind)
    {
        await using var room = await Mailroom.OpenAsync(kind);
        var (contacts, outgoing) = (room.Small.Get<ContactKeeping>(), room.Small.Get<OutgoingSending>());
        var contact = await room.AddContactAsync("Ann Orme", "ann@veldt.example");
        var first = await room.IssueAsync();
        var message = (await room.SendAllAsync()).ShouldHaveSingleItem().Message.Id;
        await outgoing.BouncedAsync(message, "5.1.1: 550 nobody of that name", default);
        await room.Laboratory.ShouldRefuseAsync("message-refused", () => outgoing.BouncedAsync(message, "5.1.1 again", default));
        var row = (await room.StuckAsync()).ShouldHaveSingleItem();
        (row.Delivery.CertificateId, row.State, row.Words).ShouldBe((first, DeliveryState.CameBack, "5.1.1: 550 nobody of that name"));
        (await contacts.OfAsync(room.Manager, room.Small.Customer, default)).Single().BounceWords.ShouldBe("5.1.1: 550 nobody of that name");

        var second = await room.IssueAsync();
        (await room.SendAllAsync()).ShouldBeEmpty("nothing is sent to an address from which mail came back");
        (await room.DeliveriesAsync(second)).Single().Words!.ShouldStartWith("A mail to this address came back on 2026-03-02");
        await room.Small.Get<DeliverySending>().SettleAsync(room.Quality, row.Delivery.Id, "Read out by telephone", row.Delivery.Version, default);
        (await room.DeliveriesAsync(first)).Single().State.ShouldBe(DeliveryState.ToldOtherwise);
        (await room.StuckAsync()).ShouldHaveSingleItem().Delivery.CertificateId.ShouldBe(second);

        await contacts.ChangeAsync(room.Manager, contact, new ContactCard("Ann Orme", "ann.orme@veldt.example", null, true), "She wrote", 2, default);
        (await room.Small.Get<DeliverySending>().SendAsync(room.Quality, second, [contact], null, default)).ShouldBe(1);
        (await room.SendAllAsync()).ShouldHaveSingleItem().Message.Addressee.ShouldBe("ann.orme@veldt.example");
        (await room.StuckAsync()).ShouldBeEmpty();
    }

    [Theory]
    [EachDatabase]
    public async Task A_late_bounce_of_an_address_that_was_changed_since_leaves_the_new_one_alone(DatabaseKind kind)
    {
        await using var room = await Mailroom.OpenAsync(kind);
        var contact = await room.AddContactAsync("Ann Orme", "ann@veldt.example");
        await room.IssueAsync();
        var message = (await room.SendAllAsync()).ShouldHaveSingleItem().Message.Id;
        await room.Small.Get<ContactKeeping>().ChangeAsync(room.Manager, contact, new ContactCard("Ann Orme", "ann.orme@veldt.example", null, true), "She wrote", 1, default);
        await room.Small.Get<OutgoingSending>().BouncedAsync(message, "5.1.1", default);
        (await room.Small.Get<ContactKeeping>().OfAsync(room.Manager, room.Small.Customer, default)).Single().BouncedAt.ShouldBeNull();
        (await room.StuckAsync()).ShouldHaveSingleItem().State.ShouldBe(DeliveryState.CameBack);
    }

    [Theory]
    [EachDatabase]
    public async Task A_customers_own_text_is_sent_in_its_language_and_one_that_nobody_could_fill_in_is_refused(DatabaseKind kind)
    {
        await using var room = await Mailroom.OpenAsync(kind);
        var keeping = room.Small.Get<MailTextKeeping>();
        Task<bool> ChangeAsync((string Subject, string Text)? own, long version) => keeping.ChangeAsync(room.Manager, room.Small.Customer, "en", own, "They asked for it", version, default);
        (await room.Laboratory.ShouldRefuseAsync("place-unknown", () => ChangeAsync(("Lot {lot}", "{how} {weather}"), 0))).Message.ShouldContain("There is no place {weather}.");
        await room.Laboratory.ShouldRefuseAsync("place-missing", () => ChangeAsync(("Lot {lot}", "Here it is."), 0));
        await room.Laboratory.ShouldRefuseAsync("mail-text", () => ChangeAsync((" ", "{how} Here it is."), 0));
        await ChangeAsync(("Order {reference}: {certificate}", "For {customer}. {how}"), 0);
        await room.AddContactAsync("Ann Orme", "ann@veldt.example");
        await room.AddContactAsync("Bernd Kolb", "bernd@veldt.example", "de");
        await room.IssueAsync();
        var letters = (await room.SendAllAsync()).ToDictionary(letter => letter.Message.Addressee, letter => letter.Message);
        (letters["ann@veldt.example"].Subject, letters["ann@veldt.example"].Text).ShouldBe(("Order PO 7781: C-26-00001", "For Veldt Surface Coatings. It is attached as a PDF."));
        letters["bernd@veldt.example"].Subject.ShouldStartWith("Analysenzertifikat");
        await ChangeAsync(null, 1);
        (await keeping.OfAsync(room.Manager, room.Small.Customer, default)).ShouldAllBe(text => !text.Own);
    }

    [Theory]
    [EachDatabase]
    public async Task A_stored_file_that_is_not_the_issued_one_is_never_sent(DatabaseKind kind)
    {
        await using var room = await Mailroom.OpenAsync(kind);
        await room.AddContactAsync("Ann Orme", "ann@veldt.example");
        var id = await room.IssueAsync();
        await using (var data = room.Laboratory.Data())
        {
            await data.Certificates.Where(one => one.Id == id).ExecuteUpdateAsync(set => set.SetProperty(one => one.FileHash, new string('0', 64)));
        }

        var letter = (await room.Laboratory.Get<OutgoingSending>().DueAsync(room.Laboratory.Running.Clock.GetUtcNow(), 10, default)).ShouldHaveSingleItem();
        (letter.Files.Count, letter.Missing).ShouldBe((0, "C-26-00001.pdf"));
    }

    [Theory]
    [InlineData("Ann Orme", "nobody", "mail-address")]
    [InlineData("Ann Orme", "a@veldt.example, b@veldt.example", "mail-address")]
    [InlineData("Ann Orme", "Ann <a@veldt.example>", "mail-address")]
    [InlineData("Ann Orme", "a@veldt.example\r\nBcc: c@d.example", "mail-address")]
    [InlineData(" ", "a@veldt.example", "contact-name")]
    [InlineData("Ann Orme", "ann@veldt.example", "contact-known")]
    public async Task A_contact_to_whom_no_mail_could_go_is_refused_in_words(string name, string address, string code)
    {
        await using var room = await Mailroom.OpenAsync(DatabaseKind.Sqlite, withServer: false);
        await room.AddContactAsync("Ann", "ann@veldt.example");
        await room.Laboratory.ShouldRefuseAsync(code, () => room.AddContactAsync(name, address));
    }
}
