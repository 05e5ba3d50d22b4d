using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Heads;
using ParticleLims.Laboratory.Outgoing;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Laboratory.Tests.Heads;

public sealed class HeadTests
{
    private const string Why = "The watch asked for it";
    private static readonly OutgoingWays Both = new(new MailServer("mail.tarnfell.example", MailServer.UsualPort, MailSecurity.Tls, null, "laboratory@tarnfell.example"), "https://watch.example/news");

    [Theory]
    [EachDatabase]
    public async Task A_head_leaves_every_day_by_every_way_and_each_leaving_is_an_event(DatabaseKind kind)
    {
        await using var opened = await OpenedSmallLaboratory.OpenAsync(kind);
        var (running, administrator) = (opened.Running, opened.Small.People.Administrator.Actor);
        var departure = running.Get<HeadDeparture>();
        (await departure.LeaveDueAsync(default)).ShouldBeFalse("nobody said where to");
        await running.Get<OutgoingKeeping>().ChangeAsync(administrator, Both, Why, 0, default);
        await running.Get<HeadKeeping>().ChangePlanAsync(administrator, new HeadWishes("/watch", "watch@tarnfell.example", true, 24), Why, 0, default);
        (await departure.LeaveDueAsync(default)).ShouldBeTrue();
        (await departure.LeaveDueAsync(default)).ShouldBeFalse("it left a moment ago");
        running.Clock.Advance(TimeSpan.FromHours(24));
        (await departure.LeaveDueAsync(default)).ShouldBeTrue();

        var board = await running.Get<HeadKeeping>().BoardAsync(administrator, 10, default);
        board.Warning.ShouldBeNull();
        board.Recent.Count.ShouldBe(2);
        Files(running).Count.ShouldBe(2);
        var letters = await running.Get<OutgoingSending>().DueAsync(running.Clock.GetUtcNow(), 10, default);
        letters.Select(letter => letter.Message.Way).ShouldBe([OutgoingWay.Mail, OutgoingWay.Webhook, OutgoingWay.Mail, OutgoingWay.Webhook], ignoreOrder: true);
        letters.ShouldAllBe(letter => letter.Missing == null && letter.Files.Count == 1);
        Files(running).Values.ShouldContain(System.Text.Encoding.UTF8.GetString(letters[0].Files[0].Bytes));

        await using var data = running.Data();
        (await data.Events.CountAsync(one => one.Code == "heads.leave-by-plan")).ShouldBe(2);
        var head = HeadText.Read(board.Last!.Text)!;
        (await RecordVerifier.VerifyAsync(data, (head.Sequence, head.Hash), default)).Fault.ShouldBeNull("the record goes on from the head");
        (await RecordVerifier.VerifyAsync(data, (head.Sequence, new string('0', 64)), default)).Fault.ShouldNotBeNull();
    }

    [Theory]
    [EachDatabase]
    public async Task A_folder_that_cannot_be_written_is_said_tried_again_in_an_hour_and_warned_of(DatabaseKind kind)
    {
        await using var opened = await OpenedSmallLaboratory.OpenAsync(kind);
        var (running, administrator, keeping) = (opened.Running, opened.Small.People.Administrator.Actor, opened.Running.Get<HeadKeeping>());
        (await keeping.BoardAsync(administrator, 10, default)).Warning.ShouldNotBeNull().ShouldStartWith("No head leaves this machine by itself");
        await keeping.ChangePlanAsync(administrator, new HeadWishes("/watch", null, false, 24), Why, 0, default);
        Outside(running).Fault = "There is no folder /watch.";
        (await running.Get<HeadDeparture>().LeaveDueAsync(default)).ShouldBeFalse();
        var board = await keeping.BoardAsync(administrator, 10, default);
        (board.Last, board.Recent.Single().Fault, board.Warning).ShouldBe((null, "There is no folder /watch.", "No head has left this machine yet."));

        running.Clock.Advance(TimeSpan.FromMinutes(59));
        await running.Get<HeadDeparture>().LeaveDueAsync(default);
        (await keeping.BoardAsync(administrator, 10, default)).Recent.Count.ShouldBe(1);
        running.Clock.Advance(TimeSpan.FromMinutes(1));
        Outside(running).Fault = null;
        (await running.Get<HeadDeparture>().LeaveDueAsync(default)).ShouldBeTrue();
        (await keeping.BoardAsync(administrator, 10, default)).Warning.ShouldBeNull();

        running.Clock.Advance(TimeSpan.FromHours(25));
        (await keeping.BoardAsync(administrator, 10, default)).Warning.ShouldBe("The last head left longer ago than the plan says.");
    }

    [Theory]
    [EachDatabase]
    public async Task A_plan_that_leads_nowhere_is_refused(DatabaseKind kind)
    {
        await using var opened = await OpenedSmallLaboratory.OpenAsync(kind);
        var (keeping, administrator) = (opened.Running.Get<HeadKeeping>(), opened.Small.People.Administrator.Actor);
        async Task<string?> RefusedAsync(HeadWishes wishes) => (await Should.ThrowAsync<RefusedException>(() => keeping.ChangePlanAsync(administrator, wishes, Why, 0, default))).Member;
        (await RefusedAsync(new HeadWishes("heads", null, false, 24))).ShouldBe("folder");
        (await RefusedAsync(new HeadWishes(null, "nobody", false, 24))).ShouldBe("mailTo");
        (await RefusedAsync(new HeadWishes(null, "watch@tarnfell.example", false, 24))).ShouldBe("mailTo", "no mail server");
        (await RefusedAsync(new HeadWishes(null, null, true, 24))).ShouldBe("post", "no webhook");
        (await RefusedAsync(new HeadWishes("/watch", null, false, 0))).ShouldBe("everyHours");
    }

    [Fact]
    public void A_head_comes_back_from_its_file_as_it_was_written_also_with_other_line_ends()
    {
        var lines = HeadText.Write("Tarnfell\nMilling", 4711, new string('a', 64), RunningLaboratory.FirstMorning, RunningLaboratory.FirstMorning.AddHours(1));
        var file = HeadText.Sign(lines, [1, 2, 3]);
        foreach (var text in new[] { file, file.ReplaceLineEndings("\r\n"), "\uFEFF" + file.TrimEnd() })
        {
            var read = HeadText.Read(text).ShouldNotBeNull();
            (read.Sequence, read.Hash, read.SignedText).ShouldBe((4711, new string('a', 64), lines));
            read.Signature.ShouldBe(new byte[] { 1, 2, 3 });
        }
    }

    [Theory]
    [InlineData("")]
    [InlineData("event 1\nhash aa")]
    [InlineData("Head of a laboratory's record, form 1\nevent one\nhash aa")]
    [InlineData("Head of a laboratory's record, form 1\nevent 1\nhash aa")]
    public void What_is_no_head_is_not_read_as_one(string text) => HeadText.Read(text).ShouldBeNull();

    private static PlainHeads Outside(RunningLaboratory running) => (PlainHeads)running.Get<IHeadOutside>();

    private static System.Collections.Concurrent.ConcurrentDictionary<string, string> Files(RunningLaboratory running) => Outside(running).Files;
}
