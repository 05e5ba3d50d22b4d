using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.DependencyInjection;
using ParticleLims.Laboratory.Outgoing;
using ParticleLims.Web.Outgoing;
using ParticleLims.Web.Start;
using Shouldly;
using Xunit;

namespace ParticleLims.Web.Tests.Outgoing;

/// <summary>Messages that really leave: to a mail server and to another program, both on the loopback address.</summary>
public sealed class OutgoingTests
{
    private const string Why = "The watch asked for it";
    private const string Watcher = "watch@tarnfell.example";

    [Fact]
    public async Task A_mail_arrives_with_its_words_and_the_servers_answer_is_kept()
    {
        await using var office = PostOffice.Open("kettle & spoon");
        await using var web = await StartAsync(new OutgoingWays(Server(office, "laboratory"), null));
        await File.WriteAllTextAsync(Path.Combine(Folder(web), OutgoingSecrets.MailPasswordFile), "kettle & spoon\n");
        await TestAsync(web, Watcher);

        office.Taken.TryDequeue(out var mail).ShouldBeTrue();
        mail.ShouldContain("To: watch@tarnfell.example");
        mail.ShouldContain("From: laboratory@tarnfell.example");
        mail.ShouldContain("Subject: Test message");
        mail.ShouldContain("Auto-Submitted: auto-generated");
        mail.ShouldContain("tries whether messages of the laboratory arrive");
        var row = await OnlyAsync(web);
        row.Message.State.ShouldBe(OutgoingState.Sent);
        row.Attempts.ShouldHaveSingleItem().Outcome.ShouldContain("taken as 4711");
    }

    [Theory]
    [InlineData("wrong", "refuses the name or the password")]
    [InlineData(null, "There is no password for the mail server")]
    public async Task A_mail_without_the_right_password_waits_and_no_word_of_it_is_told(string? given, string words)
    {
        await using var office = PostOffice.Open("kettle & spoon");
        await using var web = await StartAsync(new OutgoingWays(Server(office, "laboratory"), null));
        if (given is not null)
        {
            await File.WriteAllTextAsync(Path.Combine(Folder(web), OutgoingSecrets.MailPasswordFile), given);
        }

        await TestAsync(web, Watcher);
        var row = await OnlyAsync(web);
        (row.Message.State, row.Message.Tries).ShouldBe((OutgoingState.Waiting, 1));
        row.Attempts.Single().Outcome.ShouldContain(words);
        row.Attempts.Single().Outcome.ShouldNotContain("wrong");
        office.Taken.ShouldBeEmpty();
    }

    [Fact]
    public async Task An_addressee_that_the_server_refuses_is_told_with_its_words()
    {
        await using var office = PostOffice.Open();
        office.ToAddressee = "550 nobody of that name";
        await using var web = await StartAsync(new OutgoingWays(Server(office, null), null));
        await TestAsync(web, Watcher);
        (await OnlyAsync(web)).Attempts.Single().Outcome.ShouldBe("127.0.0.1 refuses: nobody of that name");
    }

    [Theory]
    [InlineData("550 nobody of that name", "250 taken", OutgoingState.Refused)]
    [InlineData("250 OK", "554 not this", OutgoingState.Refused)]
    [InlineData("450 come back later", "250 taken", OutgoingState.Waiting)]
    [InlineData("250 OK", "452 no room now", OutgoingState.Waiting)]
    public async Task What_is_refused_for_good_is_not_tried_again_and_what_is_refused_for_now_is(string toAddressee, string toMail, OutgoingState state)
    {
        await using var office = PostOffice.Open();
        (office.ToAddressee, office.ToMail) = (toAddressee, toMail);
        await using var web = await StartAsync(new OutgoingWays(Server(office, null), null));
        await TestAsync(web, Watcher);
        var message = (await OnlyAsync(web)).Message;
        (message.State, message.NextTryAt is null).ShouldBe((state, state == OutgoingState.Refused));
    }

    [Fact]
    public async Task A_server_that_is_not_there_is_told_and_the_message_waits()
    {
        var office = PostOffice.Open();
        var server = Server(office, null);
        await office.DisposeAsync();
        await using var web = await StartAsync(new OutgoingWays(server, null));
        await TestAsync(web, Watcher);
        (await OnlyAsync(web)).Attempts.Single().Outcome.ShouldStartWith("127.0.0.1 cannot be reached");
    }

    [Fact]
    public async Task A_server_that_accepts_and_says_nothing_does_not_hold_up_the_others()
    {
        using var silent = new System.Net.Sockets.TcpListener(System.Net.IPAddress.Loopback, 0);
        silent.Start();
        var server = new MailServer("127.0.0.1", ((System.Net.IPEndPoint)silent.LocalEndpoint).Port, MailSecurity.None, null, "laboratory@tarnfell.example");
        await using var web = await StartAsync(new OutgoingWays(server, null), TimeSpan.FromMilliseconds(300));
        await TestAsync(web, Watcher);
        (await OnlyAsync(web)).Attempts.Single().Outcome.ShouldStartWith("127.0.0.1 ");
        (await OnlyAsync(web)).Message.State.ShouldBe(OutgoingState.Waiting);
    }

    [Fact]
    public async Task A_post_is_signed_over_its_time_and_its_body_so_that_neither_can_be_changed()
    {
        await using var watch = await Watch.StartAsync();
        await using var web = await StartAsync(new OutgoingWays(null, watch.Address));
        await TestAsync(web, null);
        watch.All.TryDequeue(out var posted).ShouldBeTrue();
        var key = (await File.ReadAllTextAsync(Path.Combine(Folder(web), OutgoingSecrets.WebhookKeyFile))).Trim();
        IsGenuine(key, posted).ShouldBeTrue();
        IsGenuine(key, posted with { Body = [.. posted.Body, (byte)' '] }).ShouldBeFalse("the body was changed");
        IsGenuine(key, posted with { Headers = Later(posted.Headers) }).ShouldBeFalse("an old post is given a new time");
        IsGenuine(new string('0', key.Length), posted).ShouldBeFalse("somebody without the key");

        using var body = JsonDocument.Parse(posted.Body);
        body.RootElement.GetProperty("kind").GetString().ShouldBe("test");
        body.RootElement.GetProperty("message").GetGuid().ToString("D").ShouldBe(posted.Headers[WebhookSignature.MessageHeader]);
        (await OnlyAsync(web)).Attempts.Single().Outcome.ShouldBe("Taken by 127.0.0.1: 204 No Content");
    }

    [Fact]
    public async Task A_post_tried_again_carries_the_same_key_of_its_message()
    {
        await using var watch = await Watch.StartAsync();
        watch.Answers = StatusCodes.Status503ServiceUnavailable;
        await using var web = await StartAsync(new OutgoingWays(null, watch.Address));
        await TestAsync(web, null);
        var row = await OnlyAsync(web);
        row.Attempts.Single().Outcome.ShouldBe("127.0.0.1 answers 503 Service Unavailable.");
        watch.Answers = StatusCodes.Status200OK;
        await web.Get<OutgoingKeeping>().TryAgainAsync(web.Administrator, row.Message.Id, row.Message.Version, default);
        await web.Get<OutgoingWork>().SendDueAsync(default);
        (await OnlyAsync(web)).Message.State.ShouldBe(OutgoingState.Sent);
        watch.All.Select(posted => posted.Headers[WebhookSignature.MessageHeader]).Distinct().ShouldHaveSingleItem().ShouldBe(row.Message.Id.ToString("D"));
    }

    [Fact]
    public async Task A_redirect_is_not_followed()
    {
        await using var watch = await Watch.StartAsync();
        watch.Answers = StatusCodes.Status307TemporaryRedirect;
        await using var web = await StartAsync(new OutgoingWays(null, watch.Address));
        await TestAsync(web, null);
        watch.All.Count.ShouldBe(1);
        (await OnlyAsync(web)).Attempts.Single().Outcome.ShouldStartWith("127.0.0.1 answers 307");
    }

    [Fact]
    public async Task A_program_that_does_not_answer_in_time_keeps_nothing_waiting()
    {
        await using var watch = await Watch.StartAsync();
        watch.Thinks = TimeSpan.FromMinutes(5);
        await using var web = await StartAsync(new OutgoingWays(null, watch.Address), TimeSpan.FromMilliseconds(300));
        await TestAsync(web, null);
        (await OnlyAsync(web)).Attempts.Single().Outcome.ShouldBe("127.0.0.1 did not answer within 0.3 seconds.");
    }

    [Fact]
    public async Task The_key_is_made_once_and_readable_by_its_owner_alone()
    {
        await using var web = await StartAsync(new OutgoingWays(null, "https://watch.example/"));
        var file = Path.Combine(Folder(web), OutgoingSecrets.WebhookKeyFile);
        var key = await File.ReadAllTextAsync(file);
        key.Trim().Length.ShouldBe(64);
        web.Get<OutgoingSecrets>().MakeWebhookKey();
        (await File.ReadAllTextAsync(file)).ShouldBe(key);
        if (!OperatingSystem.IsWindows())
        {
            File.GetUnixFileMode(file).ShouldBe(UnixFileMode.UserRead | UnixFileMode.UserWrite);
        }
    }

    [Fact]
    public void The_environment_goes_before_the_file() =>
        new OutgoingSecrets("/nowhere", name => name == "PARTICLELIMS_MAIL_PASSWORD" ? "from outside" : null).MailPassword.ShouldBe("from outside");

    // What a receiver does, written anew from the words of the handbook.
    private static bool IsGenuine(string key, Posted posted)
    {
        var text = posted.Headers[WebhookSignature.TimeHeader] + "." + Encoding.UTF8.GetString(posted.Body);
        var expected = "hmac-sha256=" + Convert.ToHexStringLower(HMACSHA256.HashData(Encoding.UTF8.GetBytes(key), Encoding.UTF8.GetBytes(text)));
        return expected == posted.Headers[WebhookSignature.SignatureHeader];
    }

    private static Dictionary<string, string> Later(IReadOnlyDictionary<string, string> headers) => new(headers, StringComparer.OrdinalIgnoreCase)
    {
        [WebhookSignature.TimeHeader] = (long.Parse(headers[WebhookSignature.TimeHeader], CultureInfo.InvariantCulture) + 1).ToString(CultureInfo.InvariantCulture),
    };

    private static MailServer Server(PostOffice office, string? user) => new("127.0.0.1", office.Port, MailSecurity.None, user, "laboratory@tarnfell.example");

    private static string Folder(RunningWeb web) => web.Get<StartOptions>().OutgoingFolder;

    private static async Task<RunningWeb> StartAsync(OutgoingWays ways, TimeSpan? limit = null)
    {
        // The test alone sends, so that what it sees does not hang on the clock.
        var web = await (await RunningWeb.StartAsync(services =>
        {
            services.Remove(services.Last(one => one.ServiceType == typeof(Microsoft.Extensions.Hosting.IHostedService)));
            services.AddSingleton(new CarryingTime(limit ?? TimeSpan.FromSeconds(30)));
        })).SetUpAsync();
        await web.Get<OutgoingKeeping>().ChangeAsync(web.Administrator, ways, Why, 0, default);
        web.Get<OutgoingSecrets>().MakeWebhookKey();
        return web;
    }

    private static async Task TestAsync(RunningWeb web, string? mailTo)
    {
        await web.Get<OutgoingKeeping>().SendTestAsync(web.Administrator, mailTo, default);
        await web.Get<OutgoingWork>().SendDueAsync(default);
    }

    private static async Task<OutgoingRow> OnlyAsync(RunningWeb web) => (await web.Get<OutgoingKeeping>().RecentAsync(web.Administrator, 10, default)).ShouldHaveSingleItem();
}
