using System.Text.RegularExpressions;
using Deque.AxeCore.Commons;
using Deque.AxeCore.Playwright;
using Microsoft.Playwright;

namespace ParticleLims.Journeys.Tests.Pages;

/// <summary>One visit of a page: opens it, takes its picture, and tells what is wrong with it.</summary>
public sealed class PageVisit(Uri address, IPage page, ProgramPage what, PageView view)
{
    // What a page says is the same on every screen; only how it looks is asked again on the second.
    private static readonly AxeRunOptions Again = new() { RunOnly = new RunOnlyOptions { Type = "rule", Values = ["color-contrast", "target-size", "scrollable-region-focusable", "link-in-text-block", "meta-viewport"] } };

    private const string LookCookie = "particlelims-look";
    private readonly List<string> faults = [];

    /// <summary>What is wrong, each in one line; empty when nothing is.</summary>
    /// <param name="pictures">Where its picture goes.</param>
    /// <param name="isOpen">Whether the page was just looked at by day: then it is turned to night where it is, as a person turns it, which takes a fraction of opening it again.</param>
    public async Task<IReadOnlyList<string>> LookAsync(PictureFolder pictures, bool isOpen = false)
    {
        page.Console += Noted;
        page.PageError += Thrown;
        try
        {
            if (!isOpen || !view.Dark || !await TurnToNightAsync())
            {
                await OpenAsync();
            }

            await CheckWordsAsync();
            await pictures.KeepAsync(page, what.Name + view.Suffix);
            await CheckReadableAsync();
        }
        catch (Exception fault) when (fault is PlaywrightException or TimeoutException or InvalidOperationException)
        {
            faults.Add(fault.Message);
        }
        finally
        {
            page.Console -= Noted;
            page.PageError -= Thrown;
        }

        return [.. faults.Select(fault => $"{what.Name}{view.Suffix} ({what.Path}): {fault}")];
    }

    private async Task OpenAsync()
    {
        await page.SetViewportSizeAsync(view.Width, view.Height);
        await page.Context.AddCookiesAsync([new Cookie { Name = LookCookie, Value = view.Dark ? "dark" : "light", Url = address.ToString() }]);
        var socket = what.Live ? page.WaitForWebSocketAsync(new PageWaitForWebSocketOptions { Timeout = 20_000 }) : Task.CompletedTask;
        var answer = await page.GotoAsync(what.Path);
        if (answer?.Status != what.Status)
        {
            faults.Add($"answered {answer?.Status}, not {what.Status}");
        }

        await socket;
        await page.WaitForLoadStateAsync(LoadState.NetworkIdle);
        await page.WaitForTimeoutAsync(500);
        if (what.First is { } first)
        {
            await first(page);
        }
    }

    // A page without a circuit has no button, and a dialog that lies over the page hides it.
    private async Task<bool> TurnToNightAsync()
    {
        var button = page.Locator(".bar-button[data-test=look]");
        if (!what.Live || what.First is not null || await button.CountAsync() == 0)
        {
            return false;
        }

        await button.ClickAsync();
        await page.Locator(".bar-button[data-test=look]:has-text('Dark')").WaitForAsync();
        await page.SetViewportSizeAsync(view.Width, view.Height);
        await page.WaitForTimeoutAsync(300);
        return true;
    }

    private async Task CheckWordsAsync()
    {
        var headings = await page.Locator("h1").AllInnerTextsAsync();
        if (headings.Count != 1 || !headings[0].StartsWith(what.Heading, StringComparison.Ordinal))
        {
            faults.Add($"headed by “{string.Join("”, “", headings)}”, not by “{what.Heading}…”");
        }

        foreach (var refusal in await page.Locator("[data-refusal], [data-test=refusal], [data-test=reference], .screen-stopped:visible").AllInnerTextsAsync())
        {
            faults.Add($"says “{refusal}”");
        }

        if (await page.EvaluateAsync<bool>("() => document.documentElement.scrollWidth > document.documentElement.clientWidth + 1"))
        {
            faults.Add("is wider than its screen");
        }
    }

    private async Task CheckReadableAsync()
    {
        var found = await page.RunAxe(view == PageView.Desk ? new AxeRunOptions() : Again);
        faults.AddRange(found.Violations.Select(violation =>
            $"axe {violation.Id} ({violation.Impact}): {violation.Help}: {string.Join(" | ", violation.Nodes.Take(3).Select(node => Regex.Replace(node.Html, @"\s+", " ", RegexOptions.None, TimeSpan.FromSeconds(5))))}"));
    }

    // A page that answers 403 or 404 makes the browser note that by itself.
    private void Noted(object? sender, IConsoleMessage message)
    {
        if (message.Type == "error" && what.Status == 200)
        {
            faults.Add($"the browser notes: {message.Text}");
        }
    }

    private void Thrown(object? sender, string fault) => faults.Add($"a script failed: {fault}");
}
