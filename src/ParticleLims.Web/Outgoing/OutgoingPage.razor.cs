using System.Globalization;
using Microsoft.AspNetCore.Components;
using MudBlazor;
using ParticleLims.Laboratory.Outgoing;
using ParticleLims.Web.Controls;

namespace ParticleLims.Web.Outgoing;

/// <summary>The ways by which messages leave, and the messages.</summary>
public sealed partial class OutgoingPage
{
    private const int MostRows = 100;
    private static readonly MailSecurity[] Securities = Enum.GetValues<MailSecurity>();
    private OutgoingSettings? settings;
    private List<OutgoingRow> rows = [];
    private string host = string.Empty;
    private string port = string.Empty;
    private int security;
    private string user = string.Empty;
    private string from = string.Empty;
    private string webhook = string.Empty;
    private string testTo = string.Empty;

    [Inject]
    private OutgoingKeeping Keeping { get; set; } = null!;

    [Inject]
    private OutgoingSecrets Secrets { get; set; } = null!;

    [Inject]
    private IDialogService Dialogs { get; set; } = null!;

    private OutgoingWays Ways => new(
        Given(host) is { } server ? new MailServer(server, int.TryParse(port, NumberStyles.None, CultureInfo.InvariantCulture, out var number) ? number : 0, Securities[security], Given(user), from.Trim()) : null, Given(webhook));

    /// <inheritdoc />
    protected override async Task LoadAsync()
    {
        settings = await Keeping.SettingsAsync(Actor, Leaving);
        (host, port, security) = (settings.MailHost ?? string.Empty, settings.MailPort.ToString(CultureInfo.InvariantCulture), Array.IndexOf(Securities, settings.MailSecurity));
        (user, from, webhook) = (settings.MailUser ?? string.Empty, settings.MailFrom ?? string.Empty, settings.WebhookAddress ?? string.Empty);
        rows = await Keeping.RecentAsync(Actor, MostRows, Leaving);
    }

    private static string? Given(string text) => string.IsNullOrWhiteSpace(text) ? null : text.Trim();

    private static string Words(MailSecurity security) => security switch { MailSecurity.StartTls => "STARTTLS", MailSecurity.Tls => "TLS", _ => "none (this machine only)" };

    private async Task SaveAsync()
    {
        if (await Dialogs.AskReasonAsync("Save", "It counts for whatever leaves from now on.") is { } reason && await DoAsync(async () =>
        {
            await Keeping.ChangeAsync(Actor, Ways, reason, settings!.Version, Leaving);
            if (Ways.WebhookAddress is not null)
            {
                Secrets.MakeWebhookKey();
            }
        }, "Saved"))
        {
            await LoadAsync();
        }
    }

    private async Task TestAsync(string? mailTo)
    {
        if (await DoAsync(() => Keeping.SendTestAsync(Actor, mailTo, Leaving), "Queued: it leaves within seconds"))
        {
            await LookAsync();
        }
    }

    private async Task AgainAsync(OutgoingMessage message)
    {
        if (await DoAsync(() => Keeping.TryAgainAsync(Actor, message.Id, message.Version, Leaving), "Queued: it leaves within seconds"))
        {
            await LookAsync();
        }
    }

    private Task<bool> LookAsync() => DoAsync(async () => rows = await Keeping.RecentAsync(Actor, MostRows, Leaving));
}
