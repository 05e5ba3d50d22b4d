using Microsoft.Playwright;

namespace ParticleLims.Journeys.Tests;

/// <summary>From the sample's arrival to the first step at the bench.</summary>
public static class Arrival
{
    /// <summary>Books in a lot and its sample, goes to the bench, and tells the lot.</summary>
    public static async Task<string> BookInAsync(IPage page)
    {
        await page.OpenAsync("/lots/new");
        await page.FillAsync("#lot-number", "J-4711");
        await page.ChooseAsync("lot-product", "GC-45");
        await page.ChooseAsync("lot-customer", "Veldt");
        await page.FillAsync("#lot-quantity", "1250.5");
        await page.At("save-lot").ClickAsync();
        await page.WaitForURLAsync("**/lots/*/sample");
        var lot = new Uri(page.Url).Segments[2].TrimEnd('/');
        await BookInSampleAsync(page, JourneyLaboratory.MethodCode, "SP-GC-45");
        await page.At("go-to-bench").First.ClickAsync();
        await page.WaitForURLAsync("**/bench/*");
        return lot;
    }

    /// <summary>Fills in the page of a new sample and books it in; tells its first run.</summary>
    public static async Task<Guid> BookInSampleAsync(IPage page, string method, string specification)
    {
        await page.ChooseAsync("sample-method", method);
        await page.ChooseAsync("sample-specification", specification);
        await page.FillAsync("#taken-by", "Milling shift B");
        await page.FillAsync("#sampling-way", "Scoop, five increments over the run-off");
        await page.FillAsync("#sample-description", "Powder, 250 g in a screw-top jar");
        await page.FillAsync("#sample-condition", "Sealed, dry");
        await page.At("save-sample").ClickAsync();
        var address = await page.At("go-to-bench").First.GetAttributeAsync("href");
        return Guid.Parse(address!.Split('/')[^1]);
    }

    /// <summary>Confirms the cautions, chooses the balance and starts the run.</summary>
    public static async Task StartRunAsync(IPage page)
    {
        await ConfirmCautionsAsync(page);
        await page.At("balance-B-JOURNEY").CheckAsync();
        await page.At("start").ClickAsync();
        await page.At("weigh").WaitForAsync();
    }

    /// <summary>Confirms the cautions to stop at, and ticks that those that are new to the person were read.</summary>
    public static async Task ConfirmCautionsAsync(IPage page)
    {
        await page.At("start-cautions").WaitForAsync();
        foreach (var stop in await page.Locator("[data-test^='confirm-']").AllAsync())
        {
            await stop.CheckAsync();
        }

        if (await page.At("have-read").CountAsync() > 0)
        {
            await page.At("have-read").CheckAsync();
        }
    }
}
