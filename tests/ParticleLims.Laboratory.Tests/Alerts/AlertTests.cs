using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Alerts;
using ParticleLims.Laboratory.Outgoing;
using ParticleLims.Laboratory.People;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Terminals;

namespace ParticleLims.Laboratory.Tests.Alerts;

public sealed class AlertTests
{
    private const string Why = "The watch asked for it";
    private static readonly OutgoingWays Mail = new(new MailServer("mail.tarnfell.example", MailServer.UsualPort, MailSecurity.Tls, null, "laboratory@tarnfell.example"), null);

    [Theory]
    [EachDatabase]
    public async Task Ten_bad_signatures_are_throttled_and_raise_one_alert_with_a_message_to_the_security_contact(DatabaseKind kind)
    {
        await using var opened = await OpenedSmallLaboratory.OpenAsync(kind);
        var (running, people) = (opened.Running, opened.Small.People);
        await running.Get<OutgoingKeeping>().ChangeAsync(people.Administrator.Actor, Mail, Why, 0, default);
        await running.Get<AlertKeeping>().ChangeRulesAsync(people.Administrator.Actor, "watch@tarnfell.example", false, AlertLimits.Usual, Why, 0, default);
        var refusals = new List<string>();
        for (var tries = 0; tries < 10; tries++)
        {
            refusals.Add((await Should.ThrowAsync<RefusedException>(() => running.Get<SignOn>().ProveAsync(people.QualityManager.Actor, "wrong", default))).Code);
        }

        refusals.ShouldBe([.. Enumerable.Repeat("secret-wrong", SecretTries.Free), .. Enumerable.Repeat("wait", 5)]);
        var alert = (await running.Get<AlertKeeping>().RecentAsync(people.Administrator.Actor, 10, default)).ShouldHaveSingleItem();
        alert.Words.ShouldStartWith($"5 wrong passwords, PINs or badges for {people.QualityManager.FullName} within 10 minutes");
        var letter = (await running.Get<OutgoingSending>().DueAsync(running.Clock.GetUtcNow(), 10, default)).ShouldHaveSingleItem();
        letter.Message.Addressee.ShouldBe("watch@tarnfell.example");
        letter.Message.Text.ShouldContain(alert.Words);
        await using var data = running.Data();
        (await data.Events.CountAsync(one => one.Code == "people.secret-refused")).ShouldBe(5);
        (await data.Events.CountAsync(one => one.Code == "alerts.raise")).ShouldBe(1);
    }

    [Theory]
    [EachDatabase]
    public async Task Sign_ons_and_signatures_count_together_and_after_the_quiet_time_anew(DatabaseKind kind)
    {
        await using var opened = await OpenedSmallLaboratory.OpenAsync(kind);
        var (running, people) = (opened.Running, opened.Small.People);
        for (var round = 0; round < 2; round++)
        {
            for (var tries = 0; tries < 5; tries++)
            {
                // Longer than the wait that each wrong try doubles.
                running.Clock.Advance(TimeSpan.FromSeconds(90));
                await Should.ThrowAsync<RefusedException>(() => tries % 2 == 0
                    ? running.Get<SignOn>().ProveAsync(people.Reviewer.Actor, "wrong", default)
                    : running.Get<SignOn>().SignOnAsync(people.Reviewer.SignOnName, "wrong", new TerminalSeen("T2"), default));
            }

            running.Clock.Advance(TimeSpan.FromHours(1));
        }

        (await running.Get<AlertKeeping>().RecentAsync(people.Administrator.Actor, 10, default)).Count.ShouldBe(2, "one for each burst");
    }

    [Theory]
    [EachDatabase]
    public async Task Many_names_tried_once_each_are_a_burst_too_and_nothing_that_was_typed_is_told(DatabaseKind kind)
    {
        await using var opened = await OpenedSmallLaboratory.OpenAsync(kind);
        for (var tries = 0; tries < 12; tries++)
        {
            var name = FormattableString.Invariant($"guessed.{tries}");
            await Should.ThrowAsync<RefusedException>(() => opened.Running.Get<SignOn>().SignOnAsync(name, "wrong", new TerminalSeen("T3"), default));
        }

        var alert = (await opened.Running.Get<AlertKeeping>().RecentAsync(opened.Small.People.Administrator.Actor, 10, default)).ShouldHaveSingleItem();
        alert.Words.ShouldBe("10 wrong passwords, PINs or badges of several or unknown people within 10 minutes, the last one at T3.");
    }

    [Theory]
    [EachDatabase]
    public async Task A_few_wrong_tries_raise_nothing(DatabaseKind kind)
    {
        await using var opened = await OpenedSmallLaboratory.OpenAsync(kind);
        for (var tries = 0; tries < 4; tries++)
        {
            await Should.ThrowAsync<RefusedException>(() => opened.Running.Get<SignOn>().ProveAsync(opened.Small.People.Technician.Actor, "wrong", default));
        }

        (await opened.Running.Get<AlertKeeping>().RecentAsync(opened.Small.People.Administrator.Actor, 10, default)).ShouldBeEmpty();
    }

    [Theory]
    [EachDatabase]
    public async Task What_an_alert_was_is_said_once_and_stays(DatabaseKind kind)
    {
        await using var opened = await OpenedSmallLaboratory.OpenAsync(kind);
        var (keeping, administrator) = (opened.Running.Get<AlertKeeping>(), opened.Small.People.Administrator.Actor);
        await opened.Running.Get<AlertRaising>().RaiseAsync(AlertKind.WrongSecrets, "Seen", Guid.Empty, TimeSpan.FromMinutes(10), default);
        (await opened.Running.Get<AlertRaising>().RaiseAsync(AlertKind.WrongSecrets, "Seen", Guid.Empty, TimeSpan.FromMinutes(10), default)).ShouldBeFalse("the same a moment later");
        var alert = (await keeping.RecentAsync(administrator, 10, default)).Single();
        (await Should.ThrowAsync<RefusedException>(() => keeping.CloseAsync(administrator, alert.Id, "no", 1, default))).Code.ShouldBe("finding-missing");
        await keeping.CloseAsync(administrator, alert.Id, "A keyboard with a stuck key", 1, default);
        var closed = (await keeping.RecentAsync(administrator, 10, default)).Single();
        (closed.Finding, closed.ClosedAt).ShouldBe(("A keyboard with a stuck key", opened.Running.Clock.GetUtcNow()));
        (await Should.ThrowAsync<RefusedException>(() => keeping.CloseAsync(administrator, alert.Id, "Something else", 2, default))).Code.ShouldBe("alert-closed");
    }
}
