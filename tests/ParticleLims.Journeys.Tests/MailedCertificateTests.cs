using System.Security.Cryptography;
using System.Text;
using Microsoft.Playwright;
using MimeKit;
using ParticleLims.Laboratory.Customers;
using ParticleLims.Laboratory.Outgoing;
using ParticleLims.TestLaboratory.SmallLaboratories;
using ParticleLims.Web.Tests.Outgoing;
using Shouldly;
using Xunit;

namespace ParticleLims.Journeys.Tests;

/// <summary>The quality manager issues a certificate and sends it to the customer; the mail really leaves, to a mail server on the loopback address.</summary>
public sealed class MailedCertificateTests
{
    private const int MostLooks = 40;

    [Fact]
    public async Task A_certificate_is_issued_and_sent_to_a_contact_who_gets_the_stored_file_and_the_page_says_so()
    {
        await using var office = PostOffice.Open();
        TestLot lot = null!;
        await using var journey = await JourneyLaboratory.OpenAsync(async journey => lot = await PrepareAsync(journey.Small, office.Port));
        await using var browser = await Browser.OpenAsync(journey.Program.Address);
        var page = await browser.SignOnAsync(journey.Small.People.QualityManager);
        await page.OpenAsync($"/decisions/{lot.Id}");
        await page.At("issue").ClickAsync();
        var stored = await PrintedWords.DownloadAsync(page, "download");
        await page.OpenAsync((await page.At("certificates").Locator("a.stamp").First.GetAttributeAsync("href"))!);
        await page.At("no-deliveries").WaitForAsync();

        await page.At("send-to").CheckAsync();
        await page.At("send").ClickAsync();
        var delivery = page.At("delivery").First;
        await delivery.WaitForAsync();
        for (var looks = 0; !(await delivery.InnerTextAsync()).Contains("Taken by 127.0.0.1", StringComparison.Ordinal); looks++)
        {
            looks.ShouldBeLessThan(MostLooks, $"the page still says: {await delivery.InnerTextAsync()}");
            await page.WaitForTimeoutAsync(500);
            await page.GetByRole(AriaRole.Button, new PageGetByRoleOptions { Name = "Look again" }).ClickAsync();
        }

        (await delivery.InnerTextAsync()).ShouldContain("Ann Orme");
        (await page.At("delivery").CountAsync()).ShouldBe(1);
        using var mail = MimeMessage.Load(new MemoryStream(Encoding.UTF8.GetBytes(office.Taken.ShouldHaveSingleItem())));
        mail.To.ToString().ShouldBe("ann@veldt.example");
        using var attached = new MemoryStream();
        mail.Attachments.OfType<MimePart>().ShouldHaveSingleItem().Content!.DecodeTo(attached);
        Convert.ToHexString(SHA256.HashData(attached.ToArray())).ShouldBe(Convert.ToHexString(SHA256.HashData(stored)));
    }

    /// <summary>A released lot, a mail server, and a contact who gets nothing by himself.</summary>
    private static async Task<TestLot> PrepareAsync(SmallLaboratory small, int port)
    {
        var server = new MailServer("127.0.0.1", port, MailSecurity.None, null, "laboratory@tarnfell.example");
        await small.Get<OutgoingKeeping>().ChangeAsync(small.People.Administrator.Actor, new OutgoingWays(server, null), "The customer asked for it", 0, default);
        await small.Get<ContactKeeping>().AddAsync(small.People.LaboratoryManager.Actor, small.Customer, new ContactCard("Ann Orme", "ann@veldt.example", null, false), null, default);
        return await (await small.BookInAsync(small.Calcite)).ReleaseAsync(Powder.Calcite);
    }
}
