using System.Globalization;
using Microsoft.AspNetCore.Components;
using MudBlazor;
using ParticleLims.Laboratory.Alerts;
using ParticleLims.Web.Controls;

namespace ParticleLims.Web.Alerts;

/// <summary>What the program called somebody for, what it was, and who is called.</summary>
public sealed partial class AlertsPage
{
    private const int MostRows = 60;
    private List<Alert>? alerts;
    private AlertRules? rules;
    private string contact = string.Empty;
    private bool post;
    private string ofOne = string.Empty;
    private string ofAll = string.Empty;
    private string minutes = string.Empty;
    private string seconds = string.Empty;

    [Inject]
    private AlertKeeping Keeping { get; set; } = null!;

    [Inject]
    private IDialogService Dialogs { get; set; } = null!;

    /// <inheritdoc />
    protected override async Task LoadAsync()
    {
        alerts = await Keeping.RecentAsync(Actor, MostRows, Leaving);
        rules = await Keeping.RulesAsync(Actor, Leaving);
        (contact, post) = (rules.Contact ?? string.Empty, rules.Post);
        (ofOne, ofAll, minutes, seconds) = (Text(rules.TriesOfOne), Text(rules.TriesOfAll), Text(rules.WithinMinutes), Text(rules.ClockStepSeconds));
    }

    private static string Text(int number) => number.ToString(CultureInfo.InvariantCulture);

    private static int Number(string text) => int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var number) ? number : 0;

    private async Task CloseAsync(Alert alert)
    {
        if (await Dialogs.AskReasonAsync("Say what it was", alert.Words) is { } finding && await DoAsync(() => Keeping.CloseAsync(Actor, alert.Id, finding, alert.Version, Leaving), "Saved"))
        {
            await LoadAsync();
        }
    }

    private async Task SaveAsync()
    {
        var limits = new AlertLimits(Number(ofOne), Number(ofAll), Number(minutes), Number(seconds));
        if (await Dialogs.AskReasonAsync("Save", "It counts from now on.") is { } reason && await DoAsync(() => Keeping.ChangeRulesAsync(Actor, contact, post, limits, reason, rules!.Version, Leaving), "Saved"))
        {
            await LoadAsync();
        }
    }
}
