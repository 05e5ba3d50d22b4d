using System.Globalization;
using Microsoft.Playwright;
using ParticleLims.Analysis.Quantities;
using Shouldly;
using Xunit;

namespace ParticleLims.Journeys.Tests;

/// <summary>
/// The connection between screen and server is cut at any moment round a weighing, with the answer lost on the way. JOURNEY_CUTS says how often; a few times unless it does.
/// </summary>
public sealed class LostConnectionTests
{
    private static readonly int Cuts = int.Parse(Environment.GetEnvironmentVariable("JOURNEY_CUTS") ?? "6", CultureInfo.InvariantCulture);

    [Fact]
    public async Task A_cut_between_a_weighing_and_its_answer_loses_none_and_doubles_none()
    {
        await using var journey = await JourneyLaboratory.OpenAsync();
        await using var browser = await Browser.OpenAsync(journey.Program.Address);
        var page = await browser.SignOnAsync(journey.Small.People.Technician);
        var line = new CutLine();
        await page.RouteWebSocketAsync("**/_blazor**", line.Follow);
        await Arrival.BookInAsync(page);
        await Arrival.StartRunAsync(page);

        var random = new Random(45);
        var masses = new List<Mass>();
        for (var cut = 0; cut < Cuts; cut++)
        {
            // Each mass is another one, so that each weighing in the database is known.
            var mass = Mass.FromGrams(FiveSieveRun.Tares[0] + (0.010m * cut));
            await FiveSieveRun.ClearAsync(journey, page);
            if (cut > 0)
            {
                await page.At("weigh-again").First.ClickAsync();
                await page.At("again-reason").First.ClickAsync();
            }

            journey.Balance.LoadPan(mass);
            await Task.Delay(random.Next(0, 1_500));
            await line.CutAsync();
            await page.Locator("#components-reconnect-modal[open]").WaitForAsync(new LocatorWaitForOptions { State = WaitForSelectorState.Hidden });
            await WeighedAsync(journey, page, cut + 1);
            masses.Add(mass);
            await page.Locator("[data-test='weighing-list'] li strong", new PageLocatorOptions { HasText = Hundredths(mass) }).First.WaitForAsync();
            (await page.At("not-saved").CountAsync()).ShouldBe(0);
        }

        var stored = await journey.WeighingsAsync();
        stored.Count.ShouldBe(Cuts);
        for (var at = 0; at < Cuts; at++)
        {
            Math.Abs((stored[at].Mass - masses[at]).Micrograms).ShouldBeLessThan(3_000, $"weighing {at}");
            stored[at].SupersedesId.ShouldBe(at == 0 ? null : stored[at - 1].Id);
        }

        line.Cuts.ShouldBe(Cuts);
    }

    // The balance is off by a milligram or two at most; the masses end in five milligrams.
    private static string Hundredths(Mass mass) => (decimal.Truncate(mass.Grams * 100m) / 100m).ToString("0.00", CultureInfo.InvariantCulture);

    private static async Task WeighedAsync(JourneyLaboratory journey, IPage page, int count)
    {
        for (var tries = 0; (await journey.WeighingsAsync()).Count < count; tries++)
        {
            if (tries == 600)
            {
                Assert.Fail($"Weighing {count} is taken within a minute, before or after the cut; the screen says: {await page.Locator("main").InnerTextAsync()}");
            }

            await Task.Delay(100);
        }
    }

    /// <summary>The screen's live connection, which can be cut so that what the server answers is lost.</summary>
    private sealed class CutLine
    {
        private volatile bool lost;
        private IWebSocketRoute? route;

        public int Cuts { get; private set; }

        public void Follow(IWebSocketRoute fresh)
        {
            (route, lost) = (fresh, false);
            var server = fresh.ConnectToServer();
            fresh.OnMessage(frame => Pass(frame, server));
            server.OnMessage(frame =>
            {
                if (!lost || !ReferenceEquals(route, fresh))
                {
                    Pass(frame, fresh);
                }
            });
        }

        // What the screen sends still arrives; the answer does not.
        public async Task CutAsync()
        {
            lost = true;
            Cuts++;
            await Task.Delay(60);
            await route!.CloseAsync(new WebSocketRouteCloseOptions { Code = 4_000, Reason = "cut" });
        }

        private static void Pass(IWebSocketFrame frame, IWebSocketRoute to)
        {
            if (frame.Binary is { Length: > 0 } bytes)
            {
                to.Send(bytes);
            }
            else
            {
                to.Send(frame.Text ?? string.Empty);
            }
        }
    }
}
