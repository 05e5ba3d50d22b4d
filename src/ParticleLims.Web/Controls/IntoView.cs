using Microsoft.JSInterop;

namespace ParticleLims.Web.Controls;

/// <summary>Brings what has to be read into view. It is a courtesy: where the browser does not answer, the page goes on without it.</summary>
internal static class IntoView
{
    /// <summary>Calls one of the functions of <c>shell.js</c>.</summary>
    /// <param name="browser">The browser.</param>
    /// <param name="function">The function's name.</param>
    /// <param name="arguments">What it is given.</param>
    public static async Task BringAsync(this IJSRuntime browser, string function, params object?[] arguments)
    {
        try
        {
            await using var shell = await browser.InvokeAsync<IJSObjectReference>("import", "/shell.js");
            await shell.InvokeVoidAsync(function, arguments);
        }
        catch (Exception fault) when (fault is JSDisconnectedException or JSException or OperationCanceledException)
        {
            // The browser is gone, cannot be reached, or did not answer in time: nobody looks.
        }
    }
}
