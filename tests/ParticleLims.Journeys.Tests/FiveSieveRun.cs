using System.Globalization;
using System.Text.RegularExpressions;
using Microsoft.Playwright;
using ParticleLims.Analysis.Quantities;

namespace ParticleLims.Journeys.Tests;

/// <summary>The technician's part: a carried-residue run of five sieves, each mass put on the simulated pan.</summary>
public sealed partial class FiveSieveRun(JourneyLaboratory journey)
{
    /// <summary>Empty sieves in grams, the finest (20 µm) first.</summary>
    public static readonly decimal[] Tares = [312.345m, 308.120m, 305.774m, 301.902m, 298.333m];

    /// <summary>What is left on each sieve in grams, of a test portion of 10.000 g.</summary>
    public static readonly decimal[] Residues = [6.000m, 3.800m, 0.200m, 0.050m, 0.010m];

    /// <summary>The test portion in grams.</summary>
    public const decimal Portion = 10.000m;

    /// <summary>Does steps until as many weighings are saved as wanted, or all steps are done.</summary>
    public async Task GoOnAsync(IPage page, int untilWeighings = int.MaxValue)
    {
        while ((await journey.WeighingsAsync()).Count < untilWeighings)
        {
            var step = await StepAsync(page);
            if (step == "done")
            {
                return;
            }

            if (step.StartsWith("Sieve", StringComparison.Ordinal))
            {
                await SieveAsync(page, step);
            }
            else
            {
                await WeighAsync(page, step);
            }
        }
    }

    /// <summary>Waits until the page of the run has its circuit again.</summary>
    public static async Task ReconnectedAsync(IPage page, Guid run)
    {
        await page.WaitForURLAsync($"**/bench/{run}");
        await page.At("run-head").WaitForAsync();
        await page.WaitForFunctionAsync("() => globalThis.Blazor !== undefined");
        await page.WaitForTimeoutAsync(800);
    }

    /// <summary>The step that the page shows.</summary>
    public static async Task<string> StepAsync(IPage page) => await page.At("run-head").GetAttributeAsync("data-step") ?? throw new InvalidOperationException("The page shows no step.");

    /// <summary>Takes the latest weighing again with the first reason offered, and tells that reason.</summary>
    public async Task<string> WeighAgainAsync(IPage page, decimal grams)
    {
        await page.At("weigh-again").First.ClickAsync();
        var reason = page.At("again-reason").First;
        await reason.ClickAsync();
        var words = await reason.InnerTextAsync();
        await PutOnPanAsync(page, grams);
        await page.At("again").WaitForAsync(new LocatorWaitForOptions { State = WaitForSelectorState.Detached });
        journey.Balance.ClearPan();
        return words;
    }

    private async Task WeighAsync(IPage page, string step)
    {
        await PutOnPanAsync(page, OnPan(step));
        await MovedOnAsync(page, step);
        journey.Balance.ClearPan();
    }

    /// <summary>Takes everything off the pan and waits until the page has seen it empty.</summary>
    public static async Task ClearAsync(JourneyLaboratory journey, IPage page)
    {
        ArgumentNullException.ThrowIfNull(journey);
        journey.Balance.ClearPan();
        await page.Locator("[data-test='live-mass']", new PageLocatorOptions { HasTextRegex = NearZero() }).WaitForAsync();
        await Task.Delay(400);
    }

    private async Task PutOnPanAsync(IPage page, decimal grams)
    {
        await ClearAsync(journey, page);
        journey.Balance.LoadPan(Mass.FromGrams(grams));
    }

    private static async Task SieveAsync(IPage page, string step)
    {
        if (await page.At("sieve-begin").CountAsync() > 0)
        {
            await page.At("sieve-begin").ClickAsync();
        }

        await MovedOnAsync(page, step);
    }

    private static async Task MovedOnAsync(IPage page, string step)
    {
        try
        {
            await page.Locator($"[data-test='run-head']:not([data-step='{step}'])").WaitForAsync();
        }
        catch (TimeoutException timeout)
        {
            throw new TimeoutException($"The step {step} is not over. The page says: {await page.Locator("main").InnerTextAsync()}", timeout);
        }
    }

    private static decimal OnPan(string step)
    {
        var position = int.Parse(step.Split('-')[1], CultureInfo.InvariantCulture);
        var tare = Tares[position - 1];
        return step.Split('-')[0] switch
        {
            "Empty" => tare,
            "Loaded" => position == 1 ? tare + Portion : tare + Residues[position - 2],
            "After" => tare + Residues[position - 1],
            _ => throw new InvalidOperationException($"No mass is known for the step {step}."),
        };
    }

    [GeneratedRegex(@"^[-−\s]*0\.00\d", RegexOptions.None, 1000)]
    private static partial Regex NearZero();
}
