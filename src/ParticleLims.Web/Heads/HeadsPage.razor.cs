using System.Globalization;
using Microsoft.AspNetCore.Components;
using MudBlazor;
using ParticleLims.Laboratory.Heads;
using ParticleLims.Web.Controls;

namespace ParticleLims.Web.Heads;

/// <summary>Which heads of the record are outside, and where they go.</summary>
public sealed partial class HeadsPage
{
    private const int MostRows = 60;
    private HeadBoard? board;
    private string folder = string.Empty;
    private string mailTo = string.Empty;
    private bool post;
    private string hours = string.Empty;

    [Inject]
    private HeadKeeping Keeping { get; set; } = null!;

    [Inject]
    private HeadDeparture Departure { get; set; } = null!;

    [Inject]
    private IDialogService Dialogs { get; set; } = null!;

    /// <inheritdoc />
    protected override async Task LoadAsync()
    {
        board = await Keeping.BoardAsync(Actor, MostRows, Leaving);
        (folder, mailTo, post) = (board.Plan.Folder ?? string.Empty, board.Plan.MailTo ?? string.Empty, board.Plan.Post);
        hours = board.Plan.EveryHours.ToString(CultureInfo.InvariantCulture);
    }

    private static string? Given(string text) => string.IsNullOrWhiteSpace(text) ? null : text.Trim();

    private async Task SaveAsync()
    {
        var wishes = new HeadWishes(Given(folder), Given(mailTo), post, int.TryParse(hours, NumberStyles.None, CultureInfo.InvariantCulture, out var number) ? number : 0);
        if (await Dialogs.AskReasonAsync("Save", "The next head leaves within a minute, if one is due.") is { } reason
            && await DoAsync(() => Keeping.ChangePlanAsync(Actor, wishes, reason, board!.Plan.Version, Leaving), "Saved"))
        {
            await LoadAsync();
        }
    }

    private async Task LeaveAsync()
    {
        var left = false;
        if (await DoAsync(async () => left = await Departure.LeaveAsync(Actor, Leaving)))
        {
            Messages.Add(left ? "A head is on its way" : "It went nowhere; the list says why", left ? Severity.Success : Severity.Error);
            await LoadAsync();
        }
    }
}
