using System.Text;
using Microsoft.Playwright;
using ParticleLims.Laboratory.Balances;
using ParticleLims.Laboratory.Exchange;
using Shouldly;
using Xunit;

namespace ParticleLims.Journeys.Tests;

/// <summary>A register that stands elsewhere comes in: dry run, what is wrong row by row, and then all of it; and the daily check offers the weight that fits.</summary>
public sealed class RegisterImportTests
{
    private const string Head = "Serial number,Nominal mass (g),Class,Place,Certificate number,Calibrated on,Conventional mass (g),Expanded uncertainty (k = 2) (mg),Compared with the weight,Certificate counts until\n";

    [Fact]
    public async Task A_register_comes_in_by_a_dry_run_and_the_only_weight_that_fits_is_offered_at_the_daily_check()
    {
        await using var journey = await JourneyLaboratory.OpenAsync();
        await using var browser = await Browser.OpenAsync(journey.Program.Address);
        var small = journey.Small;
        var manager = small.People.LaboratoryManager;
        var page = await browser.SignOnAsync(manager);
        await page.OpenAsync("/equipment/import");

        await ChooseAsync(page, "W-71,100,F1,Case 1,K-1,2026-01-05,100.00005,0.12,S-12,2035-12-31\nW-72,100,F9,Case 1,,,,,,\n");
        await page.GetByText("1 wrong").Or(page.GetByText("F9")).First.WaitForAsync();
        (await page.At("dry-run").InnerTextAsync()).ShouldContain("F9");
        (await page.At("import-all").CountAsync()).ShouldBe(0, "nothing comes in while a row is wrong");
        (await RegisterAsync()).ShouldBeEmpty("a dry run writes nothing");

        await ChooseAsync(page, "W-71,100,F1,Case 1,K-1,2026-01-05,100.00005,0.12,S-12,2035-12-31\nW-72,50,F1,Case 1,K-2,2026-01-05,50.00001,0.1,S-12,2035-12-31\n");
        await page.At("import-all").ClickAsync();
        await page.WaitForURLAsync("**/equipment");
        (await RegisterAsync()).Select(weight => weight.Serial).ShouldBe(["W-71", "W-72"]);

        await page.OpenAsync($"/equipment/balances/{small.BalanceId}");
        (await page.At("check-weight").InnerTextAsync()).ShouldContain("W-71");

        async Task<IReadOnlyList<CheckWeight>> RegisterAsync() => [.. (await small.Get<RegisterReading>().AllAsync(manager.Actor, TestContext.Current.CancellationToken)).Weights.Select(entry => entry.Weight)];
    }

    private static Task ChooseAsync(IPage page, string rows) =>
        page.Locator("[data-test='import-file']").SetInputFilesAsync(new FilePayload { Name = "weights.csv", MimeType = "text/csv", Buffer = Encoding.UTF8.GetBytes(Head + rows) });
}
