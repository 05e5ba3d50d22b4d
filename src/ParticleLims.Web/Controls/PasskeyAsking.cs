using Microsoft.AspNetCore.Components;
using Microsoft.JSInterop;
using ParticleLims.Laboratory.People;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Web.Controls;

/// <summary>Asks the browser of a screen for a passkey.</summary>
internal static class PasskeyAsking
{
    /// <summary>Where the browser shows the laboratory.</summary>
    public static PasskeyPlace PasskeyPlace(this NavigationManager navigation) => new(new Uri(new Uri(navigation.BaseUri).GetLeftPart(UriPartial.Authority)));

    /// <summary>Asks for one that exists.</summary>
    /// <exception cref="RefusedException">None was given.</exception>
    public static Task<GivenPasskey> AskAsync(IJSRuntime browser, PasskeyQuestion question) => AnswerAsync(browser, "ask", question);

    /// <summary>Asks for a new one.</summary>
    /// <exception cref="RefusedException">None was made.</exception>
    public static Task<GivenPasskey> MakeAsync(IJSRuntime browser, PasskeyQuestion question) => AnswerAsync(browser, "make", question);

    private static async Task<GivenPasskey> AnswerAsync(IJSRuntime browser, string what, PasskeyQuestion question)
    {
        await using var module = await browser.InvokeAsync<IJSObjectReference>("import", "/passkey.js");
        if (!await module.InvokeAsync<bool>("able"))
        {
            throw new RefusedException("passkey-browser", "This browser gives no passkeys to this page. They need a secure address (https) and a browser that knows them.");
        }

        // Nobody has to hurry: the device waits for the person longer than a call usually may.
        using var patience = new CancellationTokenSource(TimeSpan.FromMinutes(5));
        var said = await module.InvokeAsync<Said>(what, patience.Token, question.Options);
        return said.Answer is { } answer ? new GivenPasskey(question.Handle, answer) : throw new RefusedException("passkey-none-given", said.Words ?? "No passkey was given.");
    }

    private sealed record Said(string? Answer, string? Words);
}
