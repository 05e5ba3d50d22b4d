using Deque.AxeCore.Playwright;
using Microsoft.Playwright;
using ParticleLims.Laboratory.People;
using ParticleLims.TestLaboratory.SmallLaboratories;
using Shouldly;
using Xunit;

namespace ParticleLims.Journeys.Tests;

/// <summary>Two people at one shared terminal in a real browser: enrolled, locked, handed over by badge and PIN, and the run goes on.</summary>
public sealed class HandOverAtTheBenchTests
{
    private const string FirstPin = "482913";
    private const string SecondPin = "70355918";

    [Fact]
    public async Task A_run_goes_on_over_a_lock_and_a_change_of_person_and_each_weighing_keeps_its_name()
    {
        await using var journey = await JourneyLaboratory.OpenAsync();
        await using var browser = await Browser.OpenAsync(journey.Program.Address);
        var (small, people) = (journey.Small, journey.Small.People);
        await small.SetPinAsync(people.SecondTechnician, SecondPin);
        await SetPinAsync(await browser.SignOnAsync(people.Technician), people.Technician);
        var badge = await small.Get<Badges>().IssueAsync(people.Administrator.Actor, people.SecondTechnician.Id, CancellationToken.None);
        var run = (await small.BookInAsync(small.Calcite)).RunId;

        var page = await EnrolAsync(browser, people.Administrator);
        await ByNameAsync(page, people.Technician);
        await page.OpenAsync($"/bench/{run}");
        await Arrival.ConfirmCautionsAsync(page);
        await page.At("balance-B-JOURNEY").CheckAsync();
        await page.At("start").ClickAsync();
        await page.At("weigh").WaitForAsync();
        var sieves = new FiveSieveRun(journey);
        await sieves.GoOnAsync(page, untilWeighings: 1);
        var step = await FiveSieveRun.StepAsync(page);

        await page.At("lock").ClickAsync();
        await page.WaitForURLAsync("**/sign-on?to=*");
        (await page.At("session-over").InnerTextAsync()).ShouldContain($"{people.Technician.FullName} locked this terminal.");
        await NothingForAxeAsync(page);
        await journey.NothingIsTakenAsync(page, FiveSieveRun.Tares[0] + FiveSieveRun.Portion);
        await ByBadgeAsync(page, badge, people.SecondTechnician);
        await FiveSieveRun.ReconnectedAsync(page, run);
        (await FiveSieveRun.StepAsync(page)).ShouldBe(step, "the run stands where it was");
        (await page.At("who").InnerTextAsync()).ShouldContain(people.SecondTechnician.FullName);
        (await page.At("terminal").InnerTextAsync()).ShouldBe("Bench 2");

        await sieves.GoOnAsync(page, untilWeighings: 2);
        await page.At("sieve-begin").ClickAsync();
        await page.At("saved").WaitForAsync();
        await page.At("hand-over").ClickAsync();
        await ByNameAsync(page, people.Technician);
        await FiveSieveRun.ReconnectedAsync(page, run);
        await page.Locator("[data-test='run-head'][data-step='After-1']").WaitForAsync();
        await sieves.GoOnAsync(page, untilWeighings: 3);

        var weighings = await journey.WeighingsAsync();
        weighings.Select(weighing => weighing.PersonName).ShouldBe(
            [people.Technician.FullName, people.SecondTechnician.FullName, people.Technician.FullName]);
        (await journey.IntervalsAsync()).ShouldHaveSingleItem().ShouldSatisfyAllConditions(
            interval => interval.PersonName.ShouldBe(people.SecondTechnician.FullName), interval => interval.Seconds.ShouldBe(2, "sieving went on while nobody was signed on"));
        weighings.ShouldAllBe(weighing => weighing.Terminal == "Bench 2");
        (await journey.VerifyRecordAsync()).Fault.ShouldBeNull();
    }

    private static async Task SetPinAsync(IPage page, TestPerson person)
    {
        await page.OpenAsync("/account");
        await page.FillAsync("#pin-password", person.Password);
        await page.FillAsync("#new-pin", FirstPin);
        await page.FillAsync("#new-pin-again", FirstPin);
        await page.At("set-pin").ClickAsync();
        await page.At("remove-pin").WaitForAsync();
    }

    private static async Task<IPage> EnrolAsync(Browser browser, TestPerson administrator)
    {
        var page = await browser.SignOnAsync(administrator);
        await page.OpenAsync("/terminals");
        await page.At("enrol-here").ClickAsync();
        await page.FillAsync("#name", "Bench 2");
        await page.FillAsync("#place", "Sieving room");
        await page.At("scanner").CheckAsync();
        await page.At("enrol").ClickAsync();
        await page.At("tiles").WaitForAsync();
        await NothingForAxeAsync(page);
        return page;
    }

    // With gloves: by the keys of the screen.
    private static async Task ByNameAsync(IPage page, TestPerson person)
    {
        await page.At("tile").Filter(new LocatorFilterOptions { HasText = person.FullName }).ClickAsync();
        foreach (var digit in FirstPin)
        {
            await page.Locator($".pin-pad [data-digit='{digit}']").ClickAsync();
        }

        await NothingForAxeAsync(page);
        await page.At("pin-done").ClickAsync();
        await page.WaitForURLAsync(url => !url.Contains("/sign-on", StringComparison.Ordinal));
    }

    // As a scanner types it: keys, and Enter. A touch beside the field has taken the focus away.
    private static async Task ByBadgeAsync(IPage page, BadgeIssued badge, TestPerson person)
    {
        await page.At("session-over").ClickAsync();
        await page.Keyboard.TypeAsync(badge.Code);
        await page.Keyboard.PressAsync("Enter");
        await page.At("pin-person").WaitForAsync();
        await page.WaitForLoadStateAsync();
        (await page.At("pin-person").InnerTextAsync()).ShouldBe(person.FullName);
        page.Url.ShouldNotContain(badge.Code);
        await page.At("pin-person").ClickAsync();
        await page.Keyboard.TypeAsync(SecondPin);
        await page.Keyboard.PressAsync("Enter");
    }

    private static async Task NothingForAxeAsync(IPage page) => (await page.RunAxe()).Violations.Select(violation => violation.Id).ShouldBeEmpty();
}
