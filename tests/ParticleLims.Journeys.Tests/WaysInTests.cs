using System.Globalization;
using Microsoft.Playwright;
using ParticleLims.Laboratory.Balances;
using Shouldly;
using Xunit;

namespace ParticleLims.Journeys.Tests;

/// <summary>Weighings that do not come over the network, in a real browser.</summary>
public sealed class WaysInTests
{
    private static readonly decimal Empty = FiveSieveRun.Tares[0];
    private static readonly decimal Loaded = FiveSieveRun.Tares[0] + FiveSieveRun.Portion;
    private static readonly decimal After = FiveSieveRun.Tares[0] + FiveSieveRun.Residues[0];

    private static readonly ReadingFormatCard Printed = new()
    {
        Name = "Printed line", Pattern = "(?<sign>[+-]?)(?<value>[0-9. ]+) (?<unit>g)", WithoutMark = LineWithoutMark.Stable, EachLineIsPrint = true, FirstLineMayBeCut = false, LostAfterMilliseconds = null,
    };

    [Fact]
    public async Task The_terminals_own_port_is_chosen_once_and_read_again_after_the_cable_was_out_and_the_page_reloaded()
    {
        await using var journey = await JourneyLaboratory.OpenAsync(one => one.ChangeWayInAsync(new BalanceWay(WayIn.TerminalPort, BaudRate: 2_400, DataBits: 7, Parity: LineParity.Even, StopBits: 2), "Plain line"));
        await using var browser = await Browser.OpenAsync(journey.Program.Address);
        var page = await browser.SignOnAsync(journey.Small.People.Technician);
        await page.AddInitScriptAsync(FakePort.Script);
        await page.ReloadAsync();
        await Arrival.BookInAsync(page);
        await Arrival.StartRunAsync(page);

        await page.At("choose-port").ClickAsync();
        await LinkAsync(page, "connected");
        (await page.EvaluateAsync<string>("`${opened.baudRate} ${opened.dataBits} ${opened.parity} ${opened.stopBits}`")).ShouldBe("2400 7 even 2");
        await PutOnPanAsync(page, Empty);
        await StepOverAsync(page, "Empty-1");

        await page.EvaluateAsync("pullCable()");
        await page.WaitForFunctionAsync("() => openings === 2");
        await PutOnPanAsync(page, Loaded);
        await StepOverAsync(page, "Loaded-1");

        await page.ReloadAsync();
        await page.WaitForFunctionAsync("() => globalThis.openings === 1");
        (await page.At("port-asked").IsVisibleAsync()).ShouldBeFalse("the browser knows the port");
        await page.At("sieve-begin").ClickAsync();
        await StepOverAsync(page, "Sieve-1");
        await PutOnPanAsync(page, After);
        await StepOverAsync(page, "After-1");
        var weighings = await journey.WeighingsAsync();
        weighings.Select(weighing => weighing.Mass.Grams).ShouldBe([Empty, Loaded, After]);
        weighings.ShouldAllBe(weighing => weighing.WayIn == WayIn.TerminalPort);
        weighings[0].RawLine.ShouldBe("S +    312.345 g B-JOURNEY");
    }

    [Fact]
    public async Task A_balance_that_types_its_prints_is_weighed_by_and_what_else_is_typed_is_no_mass()
    {
        await using var journey = await JourneyLaboratory.OpenAsync(async one =>
        {
            await one.AddFormatAsync(Printed);
            await one.ChangeWayInAsync(new BalanceWay(WayIn.Keyboard), Printed.Name);
        });
        await using var browser = await Browser.OpenAsync(journey.Program.Address);
        var page = await browser.SignOnAsync(journey.Small.People.Technician);
        await Arrival.BookInAsync(page);
        await Arrival.StartRunAsync(page);
        await LinkAsync(page, "connected");

        await TypingDevice.LineAsync(page, "   312.345 kg");
        await page.At("refusal").WaitForAsync();
        await Task.Delay(1_200);
        await TypingDevice.PartAsync(page, "   31");
        await Task.Delay(400);
        await TypingDevice.LineAsync(page, "2.345 g");
        await page.At("weigh-words").Filter(new LocatorFilterOptions { HasText = "came with a pause" }).WaitForAsync();
        (await journey.WeighingsAsync()).ShouldBeEmpty();

        // What was no label of this laboratory has stopped the taking by itself; somebody lets it go on.
        await Task.Delay(1_200);
        await page.At("go-on-by-itself").ClickAsync();
        await TypingDevice.LineAsync(page, "   312.345 g");
        await StepOverAsync(page, "Empty-1");
        await TypingDevice.LineAsync(page, "   312.345 g");
        await page.At("weigh-words").Filter(new LocatorFilterOptions { HasText = "again" }).WaitForAsync();
        await TypingDevice.LineAsync(page, "   322.345 g");
        await StepOverAsync(page, "Loaded-1");

        var weighings = await journey.WeighingsAsync();
        weighings.Select(weighing => (weighing.RawLine, weighing.WayIn)).ShouldBe([("   312.345 g", WayIn.Keyboard), ("   322.345 g", WayIn.Keyboard)]);
    }

    [Fact]
    public async Task Without_the_balance_a_mass_is_keyed_twice_or_confirmed_and_stays_marked()
    {
        await using var journey = await JourneyLaboratory.OpenAsync(one => one.Small.AllowKeyingAsync());
        await using var browser = await Browser.OpenAsync(journey.Program.Address);
        var (people, page) = (journey.Small.People, await browser.SignOnAsync(journey.Small.People.Technician));
        await Arrival.BookInAsync(page);
        await Arrival.StartRunAsync(page);
        await journey.Balance.DisposeAsync();
        await LinkAsync(page, "no link");

        await page.At("key-mass").Locator("summary").ClickAsync();
        await KeyTwiceAsync(page, "312.345", "312.354");
        await page.At("key-refused").WaitForAsync();
        await KeyTwiceAsync(page, "312.345", "312.345");
        await StepOverAsync(page, "Empty-1");

        await page.At("key-mass").Locator("summary").ClickAsync();
        await page.At("key-confirmed").CheckAsync();
        await page.At("key-first").FillAsync(Loaded.ToString("0.000", CultureInfo.InvariantCulture));
        await page.At("key-name").FillAsync(people.Reviewer.SignOnName);
        await page.At("key-password").FillAsync(people.Reviewer.Password);
        await page.At("key-give").ClickAsync();
        await StepOverAsync(page, "Loaded-1");

        (await page.At("weighing-list").Locator("[data-state='keyed by hand']").CountAsync()).ShouldBe(2);
        var weighings = await journey.WeighingsAsync();
        weighings.ShouldAllBe(weighing => weighing.WayIn == WayIn.KeyedByHand);
        weighings.Select(weighing => (weighing.RawLine, weighing.ConfirmedByName)).ShouldBe(
        [
            ("keyed by hand, twice: 312.345 g", null), ($"keyed by hand, confirmed by {people.Reviewer.FullName}: 322.345 g", people.Reviewer.FullName),
        ]);
        (await journey.VerifyRecordAsync()).Fault.ShouldBeNull();
    }

    private static Task LinkAsync(IPage page, string state) => page.At("bench-link").Locator($"[data-state='{state}']").WaitForAsync();

    private static Task StepOverAsync(IPage page, string step) => page.Locator($"[data-test='run-head']:not([data-step='{step}'])").WaitForAsync();

    private static async Task PutOnPanAsync(IPage page, decimal grams)
    {
        await page.EvaluateAsync("pan = 0");
        await page.Locator("[data-test='live-mass']", new PageLocatorOptions { HasText = "0.000 g" }).WaitForAsync();
        await Task.Delay(400);
        await page.EvaluateAsync("grams => pan = grams", (double)grams);
    }

    private static async Task KeyTwiceAsync(IPage page, string first, string second)
    {
        await page.At("key-first").FillAsync(first);
        await page.At("key-give").ClickAsync();
        await page.At("key-second").FillAsync(second);
        await page.At("key-give").ClickAsync();
    }
}
