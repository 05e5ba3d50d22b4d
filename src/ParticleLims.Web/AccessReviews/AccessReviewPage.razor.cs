using System.Globalization;
using Microsoft.AspNetCore.Components;
using MudBlazor;
using ParticleLims.Laboratory.AccessReviews;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Settings;
using ParticleLims.Web.Controls;

namespace ParticleLims.Web.AccessReviews;

/// <summary>Who may do what, signed from time to time.</summary>
public sealed partial class AccessReviewPage
{
    // What counts as long ago here, for looking only: a quarter of a year.
    private const int IdleDays = 90;
    private AccessBoard? board;
    private string finding = string.Empty;
    private string days = string.Empty;
    private Guid? shown;
    private string? content;

    [Inject]
    private AccessReviewing Reviewing { get; set; } = null!;

    [Inject]
    private SettingsKeeping Settings { get; set; } = null!;

    [Inject]
    private ISecretCheck Secrets { get; set; } = null!;

    [Inject]
    private IDialogService Dialogs { get; set; } = null!;

    private string StateWords => board!.DueAt is not { } due ? "Nobody has reviewed accounts and roles yet."
        : board.Overdue ? $"The review was due by {Clock.Day(due)}."
        : $"The next review is due by {Clock.Day(due)}.";

    /// <inheritdoc />
    protected override async Task LoadAsync()
    {
        board = await Reviewing.BoardAsync(Actor, Leaving);
        days = board.EveryDays.ToString(CultureInfo.InvariantCulture);
    }

    private bool IsIdle(AccountSeen account) => account.Active && (account.LastUse is null || account.LastUse < Clock.Today.AddDays(-IdleDays));

    private async Task SignAsync()
    {
        var hash = board!.List.ContentHash;
        if (await Dialogs.AskToSignAsync("reviewed", $"Accounts and roles: {Say.Count(board.List.Accounts.Count, "account", "accounts")}") is { } answer)
        {
            if (await DoAsync(async () => await Reviewing.SignAsync(Actor, finding, await Secrets.ProveAsync(Actor, answer.Secret, Leaving), hash, Leaving), "Signed"))
            {
                finding = string.Empty;
                await LoadAsync();
            }
            else if (Refusal is StaleVersionException)
            {
                await LoadAsync();
            }
        }
    }

    private async Task SaveAsync()
    {
        if (await Dialogs.AskReasonAsync("Save", "It counts from the last review on.") is { } reason && await DoAsync(async () =>
        {
            var version = (await Settings.FindAsync(Leaving))!.Version;
            await Settings.ChangeAccessReviewAsync(Actor, int.TryParse(days, NumberStyles.None, CultureInfo.InvariantCulture, out var number) ? number : 0, reason, version, Leaving);
        }, "Saved"))
        {
            await LoadAsync();
        }
    }

    private Task<bool> ShowAsync(Guid review) => DoAsync(async () => (shown, content) = (review, await Reviewing.ContentAsync(Actor, review, Leaving)));
}
