using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Outgoing;
using ParticleLims.Laboratory.Record;
using static ParticleLims.Laboratory.Tests.Record.Ability;

namespace ParticleLims.Laboratory.Tests.Record;

/// <summary>What is done with messages that leave the machine.</summary>
internal static class OutgoingAbilities
{
    private const string Why = "Asked for in writing";
    private const string Somebody = "watch@tarnfell.example";
    private static readonly string[] Unknown = ["weather"];
    private static readonly Guid Nothing = Guid.CreateVersion7();
    private static readonly OutgoingWays Mail = new(new MailServer("mail.tarnfell.example", MailServer.UsualPort, MailSecurity.StartTls, null, "laboratory@tarnfell.example"), null);
    private static readonly OutgoingWays InClear = Mail with { WebhookAddress = "http://watch.example/" };

    public static IReadOnlyList<Ability> All { get; } =
    [
        Does("outgoing.settings", Who.Administrator, "webhook-address", (stage, who) => stage.Get<OutgoingKeeping>().ChangeAsync(who, InClear, Why, 0, default),
            stage => () => OpenMailAsync(stage)),
        Does("outgoing.test", Who.Administrator, "way-shut", (stage, who) => stage.Get<OutgoingKeeping>().SendTestAsync(who, null, default), async stage =>
        {
            await OpenMailAsync(stage);
            return () => stage.Get<OutgoingKeeping>().SendTestAsync(Administrator(stage), Somebody, default);
        }),
        Does("outgoing.try-again", Who.Administrator, "not-found", (stage, who) => stage.Get<OutgoingKeeping>().TryAgainAsync(who, Nothing, 1, default), async stage =>
        {
            var message = await QueueAsync(stage);
            return () => stage.Get<OutgoingKeeping>().TryAgainAsync(Administrator(stage), message, 1, default);
        }),
        Does("outgoing.sent", Who.Program, "not-found", (stage, _) => stage.Get<OutgoingSending>().SentAsync(Nothing, "250 OK", default), async stage =>
        {
            var message = await QueueAsync(stage);
            return () => stage.Get<OutgoingSending>().SentAsync(message, "250 OK", default);
        }),
        Does("outgoing.failed", Who.Program, "not-found", (stage, _) => stage.Get<OutgoingSending>().FailedAsync(Nothing, "no answer", default), async stage =>
        {
            var message = await QueueAsync(stage);
            return () => stage.Get<OutgoingSending>().FailedAsync(message, "no answer", default);
        }),
        Does("outgoing.refused", Who.Program, "not-found", (stage, _) => stage.Get<OutgoingSending>().RefusedAsync(Nothing, "550 nobody of that name", default), async stage =>
        {
            var message = await QueueAsync(stage);
            return () => stage.Get<OutgoingSending>().RefusedAsync(message, "550 nobody of that name", default);
        }),
        Does("outgoing.bounced", Who.Program, "not-found", (stage, _) => stage.Get<OutgoingSending>().BouncedAsync(Nothing, "5.1.1 nobody of that name", default), async stage =>
        {
            var message = await QueueAsync(stage);
            return () => stage.Get<OutgoingSending>().BouncedAsync(message, "5.1.1 nobody of that name", default);
        }),
        Does("outgoing.posted-news", Who.Administrator, "news-unknown", (stage, who) => stage.Get<OutgoingKeeping>().ChoosePostedAsync(who, Unknown, Why, 0, default),
            stage => () => stage.Get<OutgoingKeeping>().ChoosePostedAsync(Administrator(stage), ["lot-state"], Why, 0, default)),
        Reads(Who.Program, (stage, _) => stage.Get<OutgoingSending>().DueAsync(RunningLaboratory.FirstMorning, 10, default)),
        Reads(Who.Administrator, (stage, who) => stage.Get<OutgoingKeeping>().SettingsAsync(who, default)),
        Reads(Who.Administrator, (stage, who) => stage.Get<OutgoingKeeping>().RecentAsync(who, 10, default)),
    ];

    /// <summary>Sets a mail server.</summary>
    public static Task OpenMailAsync(Stage stage) => stage.Get<OutgoingKeeping>().ChangeAsync(Administrator(stage), Mail, Why, 0, default);

    private static async Task<Guid> QueueAsync(Stage stage)
    {
        await OpenMailAsync(stage);
        await stage.Get<OutgoingKeeping>().SendTestAsync(Administrator(stage), Somebody, default);
        await using var data = stage.Data();
        return await data.OutgoingMessages.Select(message => message.Id).SingleAsync();
    }

    private static Actor Administrator(Stage stage) => stage.People.Administrator.Actor;
}
