using Microsoft.Playwright;
using ParticleLims.TestLaboratory.SmallLaboratories;
using Shouldly;

namespace ParticleLims.Journeys.Tests;

/// <summary>Debian's Chromium without a window.</summary>
public sealed class Browser : IAsyncDisposable
{
    private readonly IPlaywright driver;
    private readonly IBrowser browser;
    private readonly Uri address;

    private Browser(IPlaywright driver, IBrowser browser, Uri address) => (this.driver, this.browser, this.address) = (driver, browser, address);

    /// <summary>Opens it for a program.</summary>
    /// <param name="address">Where the program answers.</param>
    /// <param name="cameraFilm">A file in the YUV4MPEG2 format that the camera shows again and again; null for no camera.</param>
    public static async Task<Browser> OpenAsync(Uri address, string? cameraFilm = null)
    {
        string[] camera = cameraFilm is null ? [] : ["--use-fake-device-for-media-stream", "--use-fake-ui-for-media-stream", $"--use-file-for-fake-video-capture={cameraFilm}"];
        var playwright = await Playwright.CreateAsync();
        var chromium = await playwright.Chromium.LaunchAsync(new BrowserTypeLaunchOptions
        {
            ExecutablePath = "/usr/bin/chromium",
            Args = ["--no-sandbox", "--disable-gpu", "--disable-background-networking", "--disable-component-update", "--disable-sync", .. camera],
        });
        return new Browser(playwright, chromium, address);
    }

    /// <summary>A terminal of its own at which a person signs on.</summary>
    public Task<IPage> SignOnAsync(TestPerson person) => SignOnAsync(person.SignOnName, person.Password);

    /// <summary>The same by name and password.</summary>
    public async Task<IPage> SignOnAsync(string name, string password)
    {
        var page = await OpenPageAsync();
        await page.GotoAsync("/sign-on");
        await page.FillAsync("#name", name);
        await page.FillAsync("#password", password);
        await page.ClickAsync("button[type=submit]");
        await page.WaitForURLAsync(url => !url.Contains("/sign-on", StringComparison.Ordinal));
        return page;
    }

    /// <summary>A page at which nobody has signed on.</summary>
    public async Task<IPage> OpenPageAsync()
    {
        var context = await browser.NewContextAsync(new BrowserNewContextOptions { BaseURL = address.ToString(), ViewportSize = new ViewportSize { Width = 1280, Height = 800 }, AcceptDownloads = true });
        context.SetDefaultTimeout(60_000);
        return await context.NewPageAsync();
    }

    /// <inheritdoc />
    public async ValueTask DisposeAsync()
    {
        await browser.DisposeAsync();
        driver.Dispose();
    }
}

/// <summary>What a person does on a page.</summary>
public static class Doing
{
    /// <summary>The element of a test handle.</summary>
    public static ILocator At(this IPage page, string handle) => page.Locator($"[data-test='{handle}']");

    /// <summary>Opens an address and waits until its circuit is up: prerendered pages swallow clicks until then.</summary>
    public static async Task OpenAsync(this IPage page, string path)
    {
        var socket = page.WaitForWebSocketAsync();
        await page.GotoAsync(path);
        await socket;
        await page.WaitForFunctionAsync("() => globalThis.Blazor !== undefined");
        await page.WaitForFunctionAsync("() => document.querySelector('main[data-live]') !== null || document.querySelector('.house-bar') === null");
        await page.WaitForTimeoutAsync(300);
    }

    /// <summary>Signs in the signing dialog.</summary>
    public static async Task SignAsync(this IPage page, TestPerson person)
    {
        await page.FillInDialogAsync("#sign-password", person.Password);
        await page.GetByRole(AriaRole.Button, new PageGetByRoleOptions { Name = "Sign", Exact = true }).ClickAsync();
        await page.Locator("#sign-password").WaitForAsync(new LocatorWaitForOptions { State = WaitForSelectorState.Detached });
    }

    /// <summary>Fills a field of a dialog once the dialog holds the focus: what is typed before goes wherever the focus is put then.</summary>
    public static async Task FillInDialogAsync(this IPage page, string field, string text)
    {
        await page.Locator(field).WaitForAsync();
        await page.WaitForFunctionAsync("() => document.activeElement?.matches('.mud-dialog input, .mud-dialog textarea') === true");
        await page.FillAsync(field, text);
        (await page.InputValueAsync(field)).ShouldBe(text);
    }

    /// <summary>Says why in the dialog that asks for it.</summary>
    public static async Task SayWhyAsync(this IPage page, string reason)
    {
        await page.FillInDialogAsync("#reason", reason);
        await page.Locator(".mud-dialog-actions .mud-button-filled").ClickAsync();
        await page.Locator("#reason").WaitForAsync(new LocatorWaitForOptions { State = WaitForSelectorState.Detached });
    }

    /// <summary>Chooses the option that begins with these words.</summary>
    public static async Task ChooseAsync(this IPage page, string id, string begins)
    {
        var option = page.Locator($"#{id} option", new PageLocatorOptions { HasText = begins }).First;
        await option.WaitForAsync(new LocatorWaitForOptions { State = WaitForSelectorState.Attached });
        var value = (await option.GetAttributeAsync("value"))!;
        await page.SelectOptionAsync($"#{id}", value);
    }
}
