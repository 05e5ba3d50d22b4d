using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Outgoing;

/// <summary>A message as the administrator's list shows it, its tries newest first.</summary>
public sealed record OutgoingRow(OutgoingMessage Message, IReadOnlyList<OutgoingAttempt> Attempts);

/// <summary>Opens and shuts the ways out, shows what left by them, and asks again for what did not.</summary>
public sealed class OutgoingKeeping(WritePath writing, ReadPath reading)
{
    /// <summary>The kind of a message that only tries a way.</summary>
    public const string TestKind = "test";

    private static readonly DeedKind ChangeDeed = new("outgoing.settings", "Ways of outgoing messages changed", Permission.KeepSettings, ReasonRequired: true);
    private static readonly DeedKind PostedDeed = new("outgoing.posted-news", "News for the webhook chosen", Permission.KeepSettings, ReasonRequired: true);
    private static readonly DeedKind TestDeed = new("outgoing.test", "Test message queued", Permission.KeepSettings);
    private static readonly DeedKind AgainDeed = new("outgoing.try-again", "Message queued again", Permission.KeepSettings);

    /// <summary>The settings; fresh ones while nobody has set any.</summary>
    public Task<OutgoingSettings> SettingsAsync(Actor actor, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.KeepSettings, (data, _, token) => OfAsync(data, token), cancellation);

    /// <summary>Opens or shuts the ways.</summary>
    public Task<bool> ChangeAsync(Actor actor, OutgoingWays ways, string reason, long version, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(ways);
        return writing.CarryOutAsync(new Deed(ChangeDeed, actor, Reason: reason), async (scope, token) =>
        {
            ways.Check();
            var settings = await OfAsync(scope.Data, token);
            DeedScope.RequireVersion(settings, version, "The ways of outgoing messages");
            if (settings.Version == 0)
            {
                scope.Data.Add(settings);
            }

            scope.About("OutgoingSettings", settings.Id, "Outgoing messages");
            (settings.MailHost, settings.MailPort, settings.MailSecurity) = (ways.Mail?.Host, ways.Mail?.Port ?? MailServer.UsualPort, ways.Mail?.Security ?? MailSecurity.StartTls);
            (settings.MailUser, settings.MailFrom, settings.WebhookAddress) = (ways.Mail?.User, ways.Mail?.From, ways.WebhookAddress);
            return true;
        }, cancellation);
    }

    /// <summary>Chooses which news of the laboratory's work is posted to the webhook.</summary>
    /// <param name="actor">Who chooses.</param>
    /// <param name="kinds">Kinds of <see cref="PostedNews"/>.</param>
    /// <param name="reason">Why.</param>
    /// <param name="version">The version of the settings that was read.</param>
    /// <param name="cancellation">Ends it.</param>
    public Task<bool> ChoosePostedAsync(Actor actor, IReadOnlyCollection<string> kinds, string reason, long version, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(PostedDeed, actor, Reason: reason), async (scope, token) =>
        {
            if (kinds.FirstOrDefault(kind => PostedNews.All.All(known => known.Kind != kind)) is { } unknown)
            {
                throw new RefusedException("news-unknown", $"There is no news “{unknown}” to post.", "kinds");
            }

            var settings = await OfAsync(scope.Data, token);
            DeedScope.RequireVersion(settings, version, "The ways of outgoing messages");
            if (settings.Version == 0)
            {
                scope.Data.Add(settings);
            }

            scope.About("OutgoingSettings", settings.Id, "News for the webhook");
            settings.Posted = kinds.Count == 0 ? null : string.Join(',', PostedNews.All.Select(known => known.Kind).Where(kinds.Contains));
            return true;
        }, cancellation);

    /// <summary>Queues a message that says nothing but that the way works.</summary>
    /// <param name="actor">Who asks.</param>
    /// <param name="mailTo">To this address by mail; null for the webhook.</param>
    /// <param name="cancellation">Ends it.</param>
    /// <exception cref="RefusedException">The way is shut, or the address is none.</exception>
    public Task<bool> SendTestAsync(Actor actor, string? mailTo, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(TestDeed, actor), async (scope, token) =>
        {
            scope.About("OutgoingSettings", OutgoingSettings.OnlyId, mailTo is null ? "Test of the webhook" : "Test by mail");
            var news = new News(TestKind, ("OutgoingSettings", OutgoingSettings.OnlyId), "Test message", $"{scope.By.Name} tries whether messages of the laboratory arrive. There is nothing to do.");
            var queued = mailTo is null ? await scope.PostAsync(news, token) : await scope.MailAsync(news, MailAddresses.Read(mailTo, "testTo"), token);
            return queued > 0 ? true : throw new RefusedException("way-shut", mailTo is null ? "No webhook is set. Save its address first." : "No mail server is set. Save it first.");
        }, cancellation);

    /// <summary>Puts a message that was given up, or that waits, to the front again.</summary>
    public Task<bool> TryAgainAsync(Actor actor, Guid id, long version, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(AgainDeed, actor), async (scope, token) =>
        {
            var message = await scope.FindAsync<OutgoingMessage>(id, "message", token);
            DeedScope.RequireVersion(message, version, "The message");
            if (message.State == OutgoingState.Sent)
            {
                throw new RefusedException("message-sent", "This message was sent already.");
            }

            scope.About("OutgoingMessage", message.Id, message.Subject);
            (message.State, message.Tries, message.NextTryAt) = (OutgoingState.Waiting, 0, scope.Now);
            return true;
        }, cancellation);

    /// <summary>The newest messages, those that did not get out first.</summary>
    public Task<List<OutgoingRow>> RecentAsync(Actor actor, int take, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.KeepSettings, async (data, _, token) =>
        {
            var messages = await data.OutgoingMessages.Include(message => message.Attachments).Include(message => message.Attempts)
                .OrderByDescending(message => message.State == OutgoingState.GivenUp || message.State == OutgoingState.Refused).ThenByDescending(message => message.State == OutgoingState.Waiting).ThenByDescending(message => message.QueuedAt)
                .Take(Math.Clamp(take, 1, 500)).AsSplitQuery().ToListAsync(token);
            return messages.ConvertAll(message => new OutgoingRow(message, [.. message.Attempts.OrderByDescending(attempt => attempt.At).ThenByDescending(attempt => attempt.Id)]));
        }, cancellation);

    /// <summary>The row within a running deed, or what holds while there is none.</summary>
    internal static async Task<OutgoingSettings> OfAsync(LaboratoryContext data, CancellationToken cancellation) =>
        await RowById<OutgoingSettings>.AskAsync(data, OutgoingSettings.OnlyId, cancellation) ?? new OutgoingSettings();
}
