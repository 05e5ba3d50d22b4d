using ParticleLims.Analysis.Quantities;
using Shouldly;
using Xunit;

namespace ParticleLims.Journeys.Tests;

/// <summary>The database does not work while somebody weighs: the screen says so, takes nothing more, and the run goes on afterwards.</summary>
public sealed class TroubledDatabaseTests
{
    [Fact]
    public async Task While_another_program_holds_the_database_the_screen_says_not_saved_and_afterwards_the_weighing_is_taken_once()
    {
        await using var journey = await JourneyLaboratory.OpenAsync();
        await using var browser = await Browser.OpenAsync(journey.Program.Address);
        var page = await browser.SignOnAsync(journey.Small.People.Technician);
        await Arrival.BookInAsync(page);
        await Arrival.StartRunAsync(page);
        await FiveSieveRun.ClearAsync(journey, page);
        await using (await journey.HoldDatabaseAsync())
        {
            journey.Balance.LoadPan(Mass.FromGrams(FiveSieveRun.Tares[0]));
            await page.At("not-saved").WaitForAsync();
            (await page.At("not-saved").InnerTextAsync()).ShouldContain("Another program holds the database");
            (await page.At("take-now").IsDisabledAsync()).ShouldBeTrue("nothing is taken before somebody has looked");
            (await page.At("saved").CountAsync()).ShouldBe(0);
            (await journey.WeighingsAsync()).ShouldBeEmpty();
        }

        await page.At("look-again").ClickAsync();
        await page.At("not-saved").WaitForAsync(new() { State = Microsoft.Playwright.WaitForSelectorState.Detached });
        await page.At("go-on-by-itself").ClickAsync();
        await page.At("saved").WaitForAsync();
        (await journey.WeighingsAsync()).ShouldHaveSingleItem();
        (await journey.VerifyRecordAsync()).Fault.ShouldBeNull();
    }
}
