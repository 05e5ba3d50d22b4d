using MudBlazor;

namespace ParticleLims.Web.Controls;

/// <summary>Asks for a reason.</summary>
public static class ReasonAsking
{
    /// <summary>Opens the dialog; null when it was cancelled.</summary>
    public static async Task<string?> AskReasonAsync(this IDialogService dialogs, string what, string explanation)
    {
        ArgumentNullException.ThrowIfNull(dialogs);
        var parameters = new DialogParameters<ReasonDialog> { { dialog => dialog.What, what }, { dialog => dialog.Explanation, explanation } };
        var shown = await dialogs.ShowAsync<ReasonDialog>(null, parameters, new DialogOptions { MaxWidth = MaxWidth.Small, FullWidth = true });
        return await shown.Result is { Canceled: false, Data: string reason } ? reason : null;
    }
}
