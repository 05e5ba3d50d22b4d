using System.Globalization;
using Deque.AxeCore.Playwright;
using Microsoft.Playwright;
using ParticleLims.Laboratory.Sieves;
using ParticleLims.TestLaboratory.SmallLaboratories;
using Shouldly;
using UglyToad.PdfPig;
using UglyToad.PdfPig.DocumentLayoutAnalysis.TextExtractor;
using Xunit;

namespace ParticleLims.Journeys.Tests;

/// <summary>Sieves that may not be used, in a real browser: refused at the bench, inspected by the list, allowed by signature, and what follows when one turns out to be bad.</summary>
public sealed class UnfitEquipmentTests
{
    private static readonly byte[] Photograph = [0x89, 0x50, 0x4E, 0x47, 0x0D, 0x0A, 0x1A, 0x0A, .. "not a whole picture, but a PNG by its first bytes"u8];

    [Fact]
    public async Task A_worn_out_sieve_is_refused_at_the_bench_until_it_is_inspected_by_the_list()
    {
        await using var journey = await JourneyLaboratory.OpenAsync(SieveOnceOnlyAsync);
        await using var browser = await Browser.OpenAsync(journey.Program.Address);
        var small = journey.Small;
        var run = (await small.BookInAsync(small.Calcite)).RunId;
        var (finest, third) = (small.Calcite.SieveIds[0], small.Calcite.SieveIds[2]);
        var page = await browser.SignOnAsync(small.People.Technician);

        await page.OpenAsync($"/bench/{run}");
        await Arrival.ConfirmCautionsAsync(page);
        (await page.Locator(".why-list").First.InnerTextAsync()).ShouldContain("was used in 1 runs since its last inspection; it is inspected after 1. Take another one, or inspect it by the list; whoever carries out runs may.");
        (await page.At("start").IsDisabledAsync()).ShouldBeTrue();

        await page.OpenAsync("/equipment");
        await TypingDevice.LineAsync(page, "TS-GC-45-020");
        await page.WaitForURLAsync($"**/equipment/sieves/{finest}");
        await page.At("inspect-by-list").ClickAsync();
        await page.WaitForURLAsync("**/inspect");
        await page.At("save-inspection").ClickAsync();
        await page.GetByText($"{SieveFaultList.All.Count} points are not answered yet.").WaitForAsync();
        (await page.Locator(".inspect-missing").CountAsync()).ShouldBe(SieveFaultList.All.Count, "every point asks for its answer");
        await InspectAsync(page, SieveFaults.None, "Against the lamp, nothing found");
        await page.WaitForURLAsync($"**/equipment/sieves/{finest}");
        (await page.At("fit-now").InnerTextAsync()).ShouldStartWith("fit for use");
        (await page.Locator("table[aria-label='Inspections']").InnerTextAsync()).ShouldContain("no fault");

        await page.OpenAsync($"/equipment/sieves/{third}/inspect");
        (await page.RunAxe()).Violations.Select(violation => violation.Id).ShouldBeEmpty();
        await InspectAsync(page, SieveFaults.Tear, "A wire is broken near the rim");
        await page.WaitForURLAsync($"**/equipment/sieves/{third}");
        (await page.At("fit-now").InnerTextAsync()).ShouldContain("is out of service (inspection found: tear)");
        await page.OpenAsync($"/bench/{run}");
        await Arrival.ConfirmCautionsAsync(page);
        var why = await page.Locator(".why-list").AllInnerTextsAsync();
        why[0].ShouldBeEmpty();
        why[2].ShouldContain("is out of service (inspection found: tear). Take another one; the laboratory manager can put it back.");
    }

    [Fact]
    public async Task The_quality_manager_allows_it_for_one_run_and_the_certificate_says_so()
    {
        await using var journey = await JourneyLaboratory.OpenAsync(SieveOnceOnlyAsync);
        await using var browser = await Browser.OpenAsync(journey.Program.Address);
        var small = journey.Small;
        var lot = await small.BookInAsync(small.Calcite);
        var finest = small.Calcite.SieveIds[0];
        var manager = await browser.SignOnAsync(small.People.QualityManager);
        await manager.OpenAsync($"/equipment/sieves/{finest}");
        await manager.ChooseAsync("allow-run", "R-");
        await manager.At("allow-unfit").ClickAsync();
        await manager.FillInDialogAsync("#sign-reason", "The other one is at its calibration");
        await manager.SignAsync(small.People.QualityManager);
        await manager.GetByText("Allowed by signature").First.WaitForAsync();

        var technician = await browser.SignOnAsync(small.People.Technician);
        await technician.OpenAsync($"/bench/{lot.RunId}");
        await Arrival.ConfirmCautionsAsync(technician);
        await technician.At("balance-B-0417").CheckAsync();
        await technician.At("start").ClickAsync();
        await technician.Locator("[data-test='run-head'][data-step='Empty-1']").WaitForAsync();
        var bench = small.Bench();
        await bench.FinishAsync(lot.RunId, Powder.Calcite);
        await bench.SubmitAsync(lot.RunId);
        await small.Desk.AcceptAsync(lot.RunId);
        await small.Desk.ReleaseAsync(lot.Id);

        await manager.OpenAsync($"/decisions/{lot.Id}");
        await manager.At("issue").ClickAsync();
        var download = await manager.RunAndWaitForDownloadAsync(() => manager.At("download").First.ClickAsync());
        await using var stream = await download.CreateReadStreamAsync();
        using var copy = new MemoryStream();
        await stream.CopyToAsync(copy);
        using var document = PdfDocument.Open(copy.ToArray());
        var words = string.Join(' ', string.Join('\n', document.GetPages().Select(page => ContentOrderTextExtractor.GetText(page))).Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
        words.ShouldContain("by permission of " + small.People.QualityManager.FullName);
        words.ShouldContain("Reason: The other one is at its calibration");
    }

    [Fact]
    public async Task A_sieve_that_turns_out_to_be_bad_flags_its_certificates_and_asks_for_decisions()
    {
        await using var journey = await JourneyLaboratory.OpenAsync();
        await using var browser = await Browser.OpenAsync(journey.Program.Address);
        var (small, bench) = (journey.Small, journey.Small.Bench());
        var (issued, open) = (await small.BookInAsync(small.Calcite), await small.BookInAsync(small.Calcite));
        foreach (var lot in (TestLot[])[issued, open])
        {
            await bench.CarryOutAsync(lot.RunId, small.Calcite, Powder.Calcite);
            await small.Desk.AcceptAsync(lot.RunId);
        }

        await small.Desk.ReleaseAsync(issued.Id);
        await small.Desk.IssueAsync(issued.Id, issued.Sample.Id);

        var keeper = await browser.SignOnAsync(small.People.LaboratoryManager);
        await keeper.OpenAsync($"/equipment/sieves/{small.Calcite.SieveIds[2]}");
        await keeper.GetByText("Mark as failed since its last good check").ClickAsync();
        await keeper.FillAsync("#failure-what", "The reference check missed by 4 %");
        await keeper.FillAsync("#failure-day", DateTime.UtcNow.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture));
        await keeper.At("failure-look").ClickAsync();
        (await keeper.At("failure-touched").InnerTextAsync()).ShouldStartWith("2 runs of 2 lots: ");
        await keeper.At("failure-mark").ClickAsync();
        await keeper.WaitForURLAsync("**/equipment/failures/*");
        var failure = new Uri(keeper.Url).AbsolutePath;

        var manager = await browser.SignOnAsync(small.People.QualityManager);
        await manager.OpenAsync("/certificates");
        (await manager.At("doubts").InnerTextAsync()).ShouldStartWith("One certificate rests on equipment that turned out to have failed");
        (await manager.At("doubt").CountAsync()).ShouldBe(1);
        await manager.OpenAsync($"/decisions/{open.Id}");
        (await manager.At("blockers").InnerTextAsync()).ShouldContain("and nothing is decided about this lot yet");
        (await manager.At("release").IsDisabledAsync()).ShouldBeTrue();

        await manager.OpenAsync(failure);
        (await manager.RunAxe()).Violations.Select(violation => violation.Id).ShouldBeEmpty();
        foreach (var _ in Enumerable.Range(0, 2))
        {
            (await manager.At("failure-close").IsDisabledAsync()).ShouldBeTrue();
            var lot = (await manager.Locator("table[aria-label='Lots'] tr:has-text('to be decided') a").First.InnerTextAsync()).Trim();
            await manager.ChooseAsync("failure-lot", lot);
            await manager.ChooseAsync("failure-decision", "the results stand");
            await manager.FillAsync("#failure-words", "The fault lies outside the sieving area");
            await manager.At("failure-decide").ClickAsync();
            await manager.Locator($"table[aria-label='Lots'] tr:has-text('{lot}'):has-text('the results stand')").WaitForAsync();
        }

        await manager.At("failure-close").ClickAsync();
        await manager.FillInDialogAsync("#sign-reason", "Two lots, both stand");
        await manager.SignAsync(small.People.QualityManager);
        await manager.GetByText("Two lots, both stand").First.WaitForAsync();
        await manager.OpenAsync("/certificates");
        (await manager.At("doubts").CountAsync()).ShouldBe(0);
        await manager.OpenAsync($"/decisions/{open.Id}");
        (await manager.At("release").IsEnabledAsync()).ShouldBeTrue();
    }

    // The finest sieve is inspected after each run, and one run has used it.
    private static async Task SieveOnceOnlyAsync(JourneyLaboratory journey)
    {
        var small = journey.Small;
        await small.Get<SieveCare>().PlanAsync(small.People.LaboratoryManager.Actor, small.Calcite.SieveIds[0], new SieveCarePlan(365, 1, SieveCarePlan.UsualTareScatter), "It wears out quickly", 2, CancellationToken.None);
        await small.Bench().CarryOutAsync((await small.BookInAsync(small.Calcite)).RunId, small.Calcite, Powder.Calcite);
    }

    private static async Task InspectAsync(IPage page, SieveFaults found, string words)
    {
        foreach (var fault in SieveFaultList.All)
        {
            await page.At($"{fault}-{(fault == found ? "found" : "not")}").CheckAsync();
        }

        await page.FillAsync("#inspect-words", words);
        await page.At("inspect-photograph").SetInputFilesAsync(new FilePayload { Name = "sieve.png", MimeType = "image/png", Buffer = Photograph });
        await page.GetByText("sieve.png, ").WaitForAsync();
        await page.At("save-inspection").ClickAsync();
    }
}
