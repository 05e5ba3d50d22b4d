using Microsoft.Playwright;

namespace ParticleLims.Journeys.Tests;

/// <summary>
/// A device that types: a balance or a scanner. Its keys are five milliseconds apart by the events' own time, however long the browser takes to hear of them.
/// </summary>
internal static class TypingDevice
{
    private const double Apart = 0.005;

    /// <summary>Types a line and Enter.</summary>
    public static Task LineAsync(IPage page, string line) => KeysAsync(page, line, enter: true);

    /// <summary>Types letters and stops in the middle of a line.</summary>
    public static Task PartAsync(IPage page, string part) => KeysAsync(page, part, enter: false);

    private static async Task KeysAsync(IPage page, string text, bool enter)
    {
        await page.Locator("html[data-hears-keys]").WaitForAsync(new LocatorWaitForOptions { State = WaitForSelectorState.Attached });
        var session = await page.Context.NewCDPSessionAsync(page);
        var now = DateTimeOffset.UtcNow.ToUnixTimeMilliseconds() / 1000.0;
        var sent = new List<Task>();
        for (var place = 0; place < text.Length; place++)
        {
            Press(text[place] == ' ' ? ("Space", " ", 32) : (string.Empty, text[place].ToString(), char.ToUpperInvariant(text[place])), text[place].ToString(), now + (place * Apart));
        }

        if (enter)
        {
            Press(("Enter", "Enter", 13), "\r", now + (text.Length * Apart));
        }

        await Task.WhenAll(sent);
        await session.DetachAsync();

        void Press((string Code, string Name, int Number) key, string letters, double at)
        {
            foreach (var (type, when) in new[] { ("keyDown", at), ("keyUp", at + 0.001) })
            {
                var arguments = new Dictionary<string, object> { ["type"] = type, ["code"] = key.Code, ["key"] = key.Name, ["windowsVirtualKeyCode"] = key.Number, ["timestamp"] = when };
                if (type == "keyDown")
                {
                    arguments["text"] = letters;
                }

                sent.Add(session.SendAsync("Input.dispatchKeyEvent", arguments));
            }
        }
    }
}
