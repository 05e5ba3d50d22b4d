using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using MimeKit;
using ParticleLims.CertificatePdf.Sealing;
using ParticleLims.Laboratory.Certificates;
using ParticleLims.Laboratory.Customers;
using ParticleLims.Laboratory.Deliveries;
using ParticleLims.Laboratory.Outgoing;
using ParticleLims.Laboratory.Storage;
using ParticleLims.TestLaboratory;
using ParticleLims.TestLaboratory.Databases;
using ParticleLims.TestLaboratory.SmallLaboratories;
using ParticleLims.Web.Outgoing;
using ParticleLims.Web.Start;
using ParticleLims.Web.Tests.Outgoing;
using Shouldly;
using Xunit;

namespace ParticleLims.Web.Tests.Deliveries;

/// <summary>Certificates that really leave by mail, to a mail server on the loopback address, and mails that come back.</summary>
public sealed class MailedCertificateTests
{
    private const string Why = "The customer asked for it";

    [Fact]
    public async Task The_mail_that_arrives_carries_the_sealed_file_and_its_twin_byte_for_byte()
    {
        await using var office = PostOffice.Open();
        await using var web = await StartAsync();
        var (small, certificate) = await IssueAsync(web, office, CertificateWishes.Usual with { TwinByMail = true, Language = "fr" });
        await web.Get<OutgoingWork>().SendDueAsync(default);
        using var mail = Read(office.Taken.ShouldHaveSingleItem());
        mail.To.ToString().ShouldBe("ann@veldt.example");
        mail.Subject.ShouldBe($"Certificat d’analyse {certificate.Number}, lot {certificate.LotNumber}");
        mail.TextBody!.ShouldContain("Il est joint au format PDF.");
        var files = mail.Attachments.OfType<MimePart>().Select(part => (part.FileName, part.ContentType.MimeType, Bytes: BytesOf(part))).ToList();
        files.Select(file => (file.FileName, file.MimeType, Convert.ToHexStringLower(SHA256.HashData(file.Bytes))))
            .ShouldBe([($"{certificate.Number}.pdf", "application/pdf", certificate.FileHash), ($"{certificate.Number}.json", "application/json", certificate.ContentHash)]);
        SealCheck.Check(files[0].Bytes, web.Get<SealKeys>().Certificates()).Outcome.ShouldBe(SealOutcome.Genuine);
        var row = (await web.Get<DeliveryReading>().OfCertificateAsync(small.People.QualityManager.Actor, certificate.Id, default)).ShouldHaveSingleItem();
        (row.State, row.Words).ShouldBe((DeliveryState.Sent, "Taken by 127.0.0.1: taken as 4711"));
    }

    [Fact]
    public async Task An_address_that_the_server_refuses_for_good_is_marked_and_nothing_more_is_sent_there()
    {
        await using var office = PostOffice.Open();
        office.ToAddressee = "550 nobody of that name";
        await using var web = await StartAsync();
        var (small, certificate) = await IssueAsync(web, office, CertificateWishes.Usual);
        await web.Get<OutgoingWork>().SendDueAsync(default);
        (await web.Get<DeliveryReading>().OfCertificateAsync(small.People.QualityManager.Actor, certificate.Id, default)).Single().State.ShouldBe(DeliveryState.CameBack);
        (await web.Get<ContactKeeping>().OfAsync(small.People.LaboratoryManager.Actor, small.Customer, default)).Single().BounceWords.ShouldBe("127.0.0.1 refuses: nobody of that name");
    }

    [Theory]
    [EachDatabase("message/rfc822")]
    [InlineData(DatabaseKind.Sqlite, "text/rfc822-headers")]
    public async Task A_notification_in_the_folder_marks_its_mail_and_is_put_away(DatabaseKind kind, string returned)
    {
        await using var office = PostOffice.Open();
        await using var web = await StartAsync(kind);
        var (small, certificate) = await IssueAsync(web, office, CertificateWishes.Usual);
        await web.Get<OutgoingWork>().SendDueAsync(default);
        using var mail = Read(office.Taken.ShouldHaveSingleItem());
        var folder = Directory.CreateTempSubdirectory("particlelims-bounces-");
        try
        {
            await File.WriteAllTextAsync(Path.Combine(folder.FullName, "1.eml"), Notification(mail.MessageId!, "failed", "5.1.1", returned));
            await File.WriteAllTextAsync(Path.Combine(folder.FullName, "2.eml"), Notification(mail.MessageId!, "failed", "5.1.1", returned));
            var (status, said) = await TakeInAsync(web, folder.FullName);
            status.ShouldBe(0, said);
            said.ShouldContain("taken in  1.eml: 5.1.1: ann@veldt.example: 550 5.1.1 no such user");
            said.ShouldContain("known     2.eml");
            folder.GetFiles().ShouldBeEmpty();
            Directory.GetFiles(Path.Combine(folder.FullName, BouncesCommand.Taken)).Length.ShouldBe(2);
            var row = (await web.Get<DeliveryReading>().OfCertificateAsync(small.People.QualityManager.Actor, certificate.Id, default)).Single();
            (row.State, row.Words).ShouldBe((DeliveryState.CameBack, "5.1.1: ann@veldt.example: 550 5.1.1 no such user"));
            (await web.Get<ContactKeeping>().OfAsync(small.People.LaboratoryManager.Actor, small.Customer, default)).Single().BouncedAt.ShouldNotBeNull();
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }

    [Theory]
    [EachDatabase]
    public async Task What_is_no_notification_of_a_failure_for_good_of_one_of_our_mails_stays_and_is_named(DatabaseKind kind)
    {
        await using var office = PostOffice.Open();
        await using var web = await StartAsync(kind);
        var (small, certificate) = await IssueAsync(web, office, CertificateWishes.Usual);
        await web.Get<OutgoingWork>().SendDueAsync(default);
        using var mail = Read(office.Taken.ShouldHaveSingleItem());
        var folder = Directory.CreateTempSubdirectory("particlelims-bounces-");
        try
        {
            (string Name, string Mail, string Words)[] left =
            [
                ("delayed.eml", Notification(mail.MessageId!, "delayed", "4.4.1"), "It tells of no failure for good"),
                ("for-now.eml", Notification(mail.MessageId!, "failed", "4.2.2"), "It tells of no failure for good"),
                ("not-ours.eml", Notification("somebody@elsewhere.example", "failed", "5.1.1"), "none of this laboratory's"),
                ("unknown.eml", Notification($"{Guid.NewGuid():N}@particlelims.invalid", "failed", "5.1.1"), "There is no such message"),
                ("away.eml", "From: ann@veldt.example\r\nSubject: I am away\r\n\r\nUntil Monday.\r\n", "It is no delivery status notification"),
                ("empty.eml", string.Empty, "It is no"),
            ];
            foreach (var one in left)
            {
                await File.WriteAllTextAsync(Path.Combine(folder.FullName, one.Name), one.Mail);
            }

            var (status, said) = await TakeInAsync(web, folder.FullName);
            status.ShouldBe(1);
            left.ShouldAllBe(one => said.Contains($"left      {one.Name}: ") && said.Contains(one.Words));
            folder.GetFiles().Length.ShouldBe(left.Length);
            (await web.Get<DeliveryReading>().OfCertificateAsync(small.People.QualityManager.Actor, certificate.Id, default)).Single().State.ShouldBe(DeliveryState.Sent);
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }

    [Fact]
    public async Task The_command_says_what_it_needs()
    {
        await using var output = new StringWriter();
        (await BouncesCommand.Read(["bounces"])!(output)).ShouldBe(2);
        (await BouncesCommand.Read(["bounces", "/there/is/none"])!(output)).ShouldBe(2);
        output.ToString().ShouldContain("There is no folder /there/is/none.");
        BouncesCommand.Read(["--demo"]).ShouldBeNull();
    }

    [Fact]
    public async Task A_post_of_news_holds_its_facts_for_programs()
    {
        await using var watch = await Watch.StartAsync();
        await using var web = await StartAsync();
        var small = await SmallLaboratory.SetUpAsync(web.Services, sievingSeconds: 1);
        var keeping = web.Get<OutgoingKeeping>();
        await keeping.ChangeAsync(small.People.Administrator.Actor, new OutgoingWays(null, watch.Address), Why, 0, default);
        web.Get<OutgoingSecrets>().MakeWebhookKey();
        await keeping.ChoosePostedAsync(small.People.Administrator.Actor, ["certificate-issued"], Why, 1, default);
        var certificate = await IssueAsync(web, small);
        await web.Get<OutgoingWork>().SendDueAsync(default);
        using var body = JsonDocument.Parse(watch.All.ShouldHaveSingleItem().Body);
        body.RootElement.GetProperty("kind").GetString().ShouldBe("certificate-issued");
        var data = body.RootElement.GetProperty("data");
        (data.GetProperty("number").GetString(), data.GetProperty("lotNumber").GetString(), data.GetProperty("fileSha256").GetString()).ShouldBe((certificate.Number, certificate.LotNumber, certificate.FileHash));
    }

    private static Task<RunningWeb> StartAsync(DatabaseKind kind = DatabaseKind.Sqlite) =>
        // The test alone sends, so that what it sees does not hang on the clock.
        RunningWeb.StartAsync(kind, services => services.Remove(services.Last(one => one.ServiceType == typeof(Microsoft.Extensions.Hosting.IHostedService))));

    private static async Task<(SmallLaboratory Small, Certificate Certificate)> IssueAsync(RunningWeb web, PostOffice office, CertificateWishes wishes)
    {
        var small = await SmallLaboratory.SetUpAsync(web.Services, sievingSeconds: 1);
        var server = new MailServer("127.0.0.1", office.Port, MailSecurity.None, null, "laboratory@tarnfell.example");
        await web.Get<OutgoingKeeping>().ChangeAsync(small.People.Administrator.Actor, new OutgoingWays(server, null), Why, 0, default);
        var manager = small.People.LaboratoryManager.Actor;
        var customer = (await web.Get<CustomerKeeping>().FindAsync(manager, small.Customer, default))!;
        await web.Get<CustomerKeeping>().ChangeAsync(manager, customer.Id, new CustomerCard(customer.Name, customer.Address, customer.Contact) { Certificates = wishes }, Why, customer.Version, default);
        await web.Get<ContactKeeping>().AddAsync(manager, small.Customer, new ContactCard("Ann Orme", "ann@veldt.example", null, true), null, default);
        return (small, await IssueAsync(web, small));
    }

    private static async Task<Certificate> IssueAsync(RunningWeb web, SmallLaboratory small)
    {
        var lot = await (await small.BookInAsync(small.Calcite)).ReleaseAsync(Powder.Calcite);
        var id = await small.Desk.IssueAsync(lot.Id, lot.Sample.Id);
        await using var data = await web.Get<IDbContextFactory<LaboratoryContext>>().CreateDbContextAsync();
        return await data.Certificates.AsNoTracking().SingleAsync(one => one.Id == id);
    }

    private static async Task<(int Status, string Said)> TakeInAsync(RunningWeb web, string folder)
    {
        await using var output = new StringWriter();
        var options = web.Get<StartOptions>();
        string[] database = options.DatabaseConnection is { } connection ? ["--database", connection] : [];
        return (await BouncesCommand.Read(["bounces", folder, "--data", options.DataFolder, .. database])!(output), output.ToString());
    }

    private static MimeMessage Read(string mail) => MimeMessage.Load(new MemoryStream(Encoding.UTF8.GetBytes(mail)));

    private static byte[] BytesOf(MimePart part)
    {
        using var bytes = new MemoryStream();
        part.Content!.DecodeTo(bytes);
        return bytes.ToArray();
    }

    // After the form of the examples in RFC 3464, appendix E; names and addresses are our own.
    private static string Notification(string messageId, string action, string status, string returned = "message/rfc822") => $"""
        From: MAILER-DAEMON@mail.tarnfell.example
        To: laboratory@tarnfell.example
        Subject: Delivery report
        MIME-Version: 1.0
        Content-Type: multipart/report; report-type=delivery-status; boundary="edge"

        --edge
        Content-Type: text/plain

        Your mail could not be delivered.

        --edge
        Content-Type: message/delivery-status

        Reporting-MTA: dns; mail.tarnfell.example

        Original-Recipient: rfc822; ann@veldt.example
        Final-Recipient: rfc822; ann@veldt.example
        Action: {action}
        Status: {status}
        Diagnostic-Code: smtp; 550 {status} no such user

        --edge
        Content-Type: {returned}

        Message-Id: <{messageId}>
        From: laboratory@tarnfell.example
        To: ann@veldt.example
        Subject: Certificate

        --edge--
        """.ReplaceLineEndings("\r\n");
}
