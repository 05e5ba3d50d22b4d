using System.Globalization;
using Microsoft.Playwright;
using ParticleLims.Laboratory.Runs;
using Shouldly;
using UglyToad.PdfPig;
using Xunit;

namespace ParticleLims.Journeys.Tests;

/// <summary>The main job in a real browser, from the sample's arrival to the certificate that a customer checks.</summary>
public sealed class SampleToCertificateTests
{
    [Fact]
    public async Task A_sample_becomes_a_certificate_although_the_server_is_killed_in_the_middle()
    {
        await using var journey = await JourneyLaboratory.OpenAsync();
        await using var browser = await Browser.OpenAsync(journey.Program.Address);
        var people = journey.Small.People;

        var technician = await browser.SignOnAsync(people.Technician);
        var lot = await Arrival.BookInAsync(technician);
        await Arrival.StartRunAsync(technician);
        var run = new FiveSieveRun(journey);
        await run.GoOnAsync(technician, untilWeighings: 1);
        var reason = await run.WeighAgainAsync(technician, FiveSieveRun.Tares[0]);
        await run.GoOnAsync(technician, untilWeighings: 6);
        var address = technician.Url;

        var saved = await journey.WeighingsAsync();
        await journey.Program.KillAsync();
        await journey.Program.StartAsync();
        (await journey.WeighingsAsync()).Select(weighing => weighing.Id).ShouldBe(saved.Select(weighing => weighing.Id));

        var nextShift = await browser.SignOnAsync(people.SecondTechnician);
        await nextShift.OpenAsync(new Uri(address).PathAndQuery);
        await run.GoOnAsync(nextShift);
        await nextShift.At("submit").ClickAsync();
        await nextShift.At("run-over").WaitForAsync();
        await CheckWeighingsAsync(journey, people.Technician.FullName, people.SecondTechnician.FullName, reason);

        await AcceptAsync(await browser.SignOnAsync(people.Reviewer), people.Reviewer);
        var pdf = await ReleaseAsync(await browser.SignOnAsync(people.QualityManager), people.QualityManager, lot);
        CheckCertificate(pdf);
        await VerifyAsync(await browser.OpenPageAsync(), pdf);
        (await journey.VerifyRecordAsync()).Fault.ShouldBeNull();
    }

    /// <summary>The first was taken again: both stay, and the second of them stands.</summary>
    private static async Task CheckWeighingsAsync(JourneyLaboratory journey, string first, string second, string reason)
    {
        var all = await journey.WeighingsAsync();
        all.Count.ShouldBe(16);
        all[1].SupersedesId.ShouldBe(all[0].Id);
        all[1].Reason.ShouldBe(reason);
        var weighings = all.Where(weighing => !all.Exists(later => later.SupersedesId == weighing.Id)).ToList();
        weighings.Count.ShouldBe(15);
        weighings.Take(5).ShouldAllBe(weighing => weighing.PersonName == first);
        weighings.Skip(5).ShouldAllBe(weighing => weighing.PersonName == second);
        for (var position = 1; position <= 5; position++)
        {
            Shown(weighings, WeighingKind.Empty, position).ShouldBe(FiveSieveRun.Tares[position - 1], 0.0025m);
            Shown(weighings, WeighingKind.After, position).ShouldBe(FiveSieveRun.Tares[position - 1] + FiveSieveRun.Residues[position - 1], 0.0025m);
        }
    }

    private static async Task AcceptAsync(IPage page, TestLaboratory.SmallLaboratories.TestPerson reviewer)
    {
        await page.OpenAsync("/review");
        await page.At("review-queue").Locator("a[href^='/review/']").First.ClickAsync();
        (await page.At("accept").IsDisabledAsync()).ShouldBeTrue("nobody signs before having seen what changed");
        await page.At("open-changes").ClickAsync();
        await page.At("changes").WaitForAsync();
        await page.At("accept").ClickAsync();
        await page.SignAsync(reviewer);
        await page.Locator("[data-state='accepted']").First.WaitForAsync();
    }

    private static async Task<byte[]> ReleaseAsync(IPage page, TestLaboratory.SmallLaboratories.TestPerson manager, string lot)
    {
        await page.OpenAsync($"/decisions/{lot}");
        await page.At("release").ClickAsync();
        await page.SignAsync(manager);
        await page.At("dispositions").WaitForAsync();
        await page.At("issue").ClickAsync();
        return await PrintedWords.DownloadAsync(page, "download");
    }

    private static void CheckCertificate(byte[] pdf)
    {
        var words = PrintedWords.Of(pdf);
        words.ShouldContain("J-4711");
        words.ShouldContain("Ground calcite");
        foreach (var residue in FiveSieveRun.Residues)
        {
            // What passes, from the masses that were put on the pan; the balance's noise moves the second decimal.
            var passing = 100m - (residue / FiveSieveRun.Portion * 100m);
            Numbers(words).ShouldContain(number => Math.Abs(number - passing) <= 0.05m, $"{passing} % is not printed: {words}");
        }

        using var document = PdfDocument.Open(pdf);
        document.NumberOfPages.ShouldBe(1);
    }

    private static async Task VerifyAsync(IPage page, byte[] pdf)
    {
        await page.GotoAsync("/verify");
        await CheckFileAsync(page, pdf, "genuine");
        pdf[pdf.Length / 2] ^= 1;
        await CheckFileAsync(page, pdf, "notOurs");
    }

    private static async Task CheckFileAsync(IPage page, byte[] pdf, string outcome)
    {
        await page.Locator("#check-file").SetInputFilesAsync(new FilePayload { Name = "certificate.pdf", MimeType = "application/pdf", Buffer = pdf });
        await page.Locator($"#check-outcome[data-outcome='{outcome}']").WaitForAsync();
    }

    private static decimal Shown(List<Weighing> weighings, WeighingKind kind, int position) => weighings.Single(weighing => weighing.Kind == kind && weighing.Position == position).Mass.Grams;

    private static List<decimal> Numbers(string words) =>
        [.. words.Split([' ', '\n', '\r', '\t'], StringSplitOptions.RemoveEmptyEntries).Select(word => decimal.TryParse(word, NumberStyles.Number, CultureInfo.InvariantCulture, out var number) ? number : -1m).Where(number => number >= 0m)];
}
