using MudBlazor;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Web.Controls;

/// <summary>What somebody gave in the signing dialog.</summary>
/// <param name="Secret">The password, or the answer of a passkey.</param>
/// <param name="Reason">Why, where it was asked.</param>
public sealed record SignAnswer(GivenSecret Secret, string Reason);

/// <summary>Asks for a signature.</summary>
public static class SignAsking
{
    /// <summary>Opens the signing dialog; null when it was cancelled.</summary>
    public static async Task<SignAnswer?> AskToSignAsync(this IDialogService dialogs, string meaning, string what, bool askReason = false)
    {
        ArgumentNullException.ThrowIfNull(dialogs);
        var parameters = new DialogParameters<SignDialog> { { dialog => dialog.Meaning, meaning }, { dialog => dialog.What, what }, { dialog => dialog.AskReason, askReason } };
        var shown = await dialogs.ShowAsync<SignDialog>(null, parameters, new DialogOptions { MaxWidth = MaxWidth.Small, FullWidth = true });
        return await shown.Result is { Canceled: false, Data: SignAnswer answer } ? answer : null;
    }
}
