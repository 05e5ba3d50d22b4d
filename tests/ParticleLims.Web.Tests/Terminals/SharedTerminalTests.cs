using System.Net;
using ParticleLims.Laboratory.People;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Runs;
using ParticleLims.Laboratory.Terminals;
using ParticleLims.TestLaboratory.SmallLaboratories;
using ParticleLims.Web.Tests.Shell;
using Shouldly;
using Xunit;

namespace ParticleLims.Web.Tests.Terminals;

/// <summary>Shared terminals over HTTP and with open screens.</summary>
public sealed class SharedTerminalTests : IAsyncLifetime
{
    private BenchWeb bench = null!;

    public async ValueTask InitializeAsync() => bench = await BenchWeb.StartAsync();

    public ValueTask DisposeAsync() => bench.DisposeAsync();

    [Fact]
    public async Task The_administrator_enrols_the_browser_and_is_signed_off_and_people_are_asked_for_badge_or_name()
    {
        using var visitor = new Visitor(bench.Web);
        var administrator = bench.Small.People.Administrator;
        using var signedOn = await visitor.SignOnAsync(administrator.SignOnName, administrator.Password);
        using var enrolled = await visitor.PostAsync("/terminals/enrol", "/terminals/enrol-here", ("name", "Bench 1"), ("place", "Sieving room"), ("scanner", "yes"));
        enrolled.Headers.Location!.ToString().ShouldBe("/sign-on");
        using var closed = await visitor.OpenAsync("/terminals");
        closed.StatusCode.ShouldBe(HttpStatusCode.Redirect);
        var page = await TextAsync(visitor, "/sign-on");
        page.ShouldContain("Bench 1");
        page.ShouldContain("Scan your badge");
        page.ShouldContain(bench.Small.People.Technician.FullName);
        page.ShouldNotContain(bench.Small.People.Customer.FullName);
    }

    [Fact]
    public async Task A_code_typed_at_the_terminal_enrols_it_and_a_second_one_is_refused_there()
    {
        using var visitor = new Visitor(bench.Web);
        var code = await bench.Small.Get<TerminalRegister>().MakeCodeAsync(bench.Small.People.Administrator.Actor, new TerminalCard("Bench 1", "Sieving room", false), default);
        using var wrong = await visitor.PostAsync("/enrol", "/enrol/code", ("code", "XXXXXXXXXX"));
        (await visitor.RefusalAsync("/enrol"))!.ShouldContain("unknown");
        using var right = await visitor.PostAsync("/enrol", "/enrol/code", ("code", code));
        right.Headers.Location!.ToString().ShouldBe("/sign-on");
        var again = await bench.Small.Get<TerminalRegister>().MakeCodeAsync(bench.Small.People.Administrator.Actor, new TerminalCard("Bench 2", "Sieving room", false), default);
        using var second = await visitor.PostAsync("/enrol", "/enrol/code", ("code", again));
        (await visitor.RefusalAsync("/enrol"))!.ShouldContain("“Bench 1” already");
    }

    [Fact]
    public async Task A_badge_and_the_pin_sign_on_and_the_page_that_was_wanted_opens()
    {
        using var visitor = await bench.EnrolledAsync("Bench 1");
        var person = bench.Small.People.Technician;
        var badge = await bench.Small.Get<Badges>().IssueAsync(bench.Small.People.Administrator.Actor, person.Id, default);
        using var unknown = await visitor.PostAsync("/sign-on", "/sign-on/badge", ("badge", "BCDFG"), ("to", "/bench"));
        (await visitor.RefusalAsync("/sign-on"))!.ShouldContain("no badge");
        using var read = await visitor.PostAsync("/sign-on", "/sign-on/badge", ("badge", badge.Code), ("to", "/bench"));
        var next = read.Headers.Location!.ToString();
        next.ShouldNotContain(badge.Code);
        (await TextAsync(visitor, next)).ShouldContain($"{person.FullName}</span> – badge read");
        using var signedOn = await visitor.PostAsync(next, "/sign-on/pin", ("person", person.Id.ToString()), ("pin", BenchWeb.Pin), ("to", "/bench"));
        signedOn.Headers.Location!.ToString().ShouldBe("/bench");
        await using var screen = await OpenScreen.OpenAsync(bench.Web, visitor);
        (await bench.Small.Get<Sessions>().LookAsync(screen.Actor.SessionId!.Value, default))!.Way.ShouldBe(SignOnWay.BadgeAndPin);
    }

    [Fact]
    public async Task A_pin_is_refused_in_a_browser_that_is_not_enrolled()
    {
        using var visitor = new Visitor(bench.Web);
        using var answer = await visitor.PostAsync("/sign-on", "/sign-on/pin", ("person", bench.Small.People.Technician.Id.ToString()), ("pin", BenchWeb.Pin), ("to", "/"));
        answer.Headers.Location!.ToString().ShouldStartWith("/sign-on");
        (await visitor.RefusalAsync("/sign-on"))!.ShouldContain("only at a terminal that the administrator has enrolled");
        (await TextAsync(visitor, "/sign-on")).ShouldNotContain(bench.Small.People.Technician.FullName);
    }

    [Fact]
    public async Task A_locked_terminal_says_who_locked_it_and_leads_back_to_where_it_was()
    {
        using var visitor = await bench.EnrolledAsync("Bench 1");
        await BenchWeb.SignOnAsync(visitor, bench.Small.People.Technician);
        await using var screen = await OpenScreen.OpenAsync(bench.Web, visitor);
        using var locked = await visitor.PostAsync("/account", "/lock", ("to", "/bench"));
        locked.Headers.Location!.ToString().ShouldBe("/sign-on?to=%2Fbench");
        await screen.Closed.WaitAsync(TimeSpan.FromSeconds(1), TestContext.Current.CancellationToken);
        var page = await TextAsync(visitor, "/sign-on?to=%2Fbench");
        page.ShouldContain("<h1>Locked</h1>");
        page.ShouldContain($"{bench.Small.People.Technician.FullName} locked this terminal.");
        await BenchWeb.SignOnAsync(visitor, bench.Small.People.SecondTechnician, "/bench");
        using var went = await visitor.OpenAsync("/bench");
        went.StatusCode.ShouldBe(HttpStatusCode.OK);
    }

    [Fact]
    public async Task The_cookie_of_a_session_is_of_no_use_in_another_browser()
    {
        using var visitor = await bench.EnrolledAsync("Bench 1");
        await BenchWeb.SignOnAsync(visitor, bench.Small.People.Technician);
        using var thief = new Visitor(bench.Web);
        thief.Cookies.Add(bench.Web.Address, new Cookie("particlelims-session", visitor.Cookies.GetCookies(bench.Web.Address)["particlelims-session"]!.Value));
        using var refused = await thief.OpenAsync("/bench");
        refused.StatusCode.ShouldBe(HttpStatusCode.Redirect);
        using var own = await visitor.OpenAsync("/bench");
        own.StatusCode.ShouldBe(HttpStatusCode.OK);
    }

    [Fact]
    public async Task The_cookie_of_a_session_ends_with_the_browser()
    {
        using var visitor = await bench.EnrolledAsync("Bench 1");
        var person = bench.Small.People.Technician;
        using var answer = await visitor.PostAsync($"/sign-on?person={person.Id}", "/sign-on/pin", ("person", person.Id.ToString()), ("pin", BenchWeb.Pin), ("to", "/"));
        var cookie = answer.Headers.GetValues("Set-Cookie").Single(one => one.StartsWith("particlelims-session=", StringComparison.Ordinal));
        cookie.ShouldNotContain("expires", Case.Insensitive);
        cookie.ShouldNotContain("max-age", Case.Insensitive);
        cookie.ShouldContain("httponly", Case.Insensitive);
        cookie.ShouldContain("samesite=strict", Case.Insensitive);
    }

    [Fact]
    public async Task The_open_screen_of_one_person_cannot_weigh_once_another_signed_on_in_the_same_browser()
    {
        using var visitor = await bench.EnrolledAsync("Bench 1");
        var (small, people) = (bench.Small, bench.Small.People);
        var lot = await small.BookInAsync(small.Calcite);
        await small.Bench().StartAsync(lot.RunId, small.Calcite);
        var step = (await small.Bench().ViewAsync(lot.RunId)).Next!;
        await BenchWeb.SignOnAsync(visitor, people.Technician);
        await using var first = await OpenScreen.OpenAsync(bench.Web, visitor);
        await BenchWeb.SignOnAsync(visitor, people.SecondTechnician);
        await using var second = await OpenScreen.OpenAsync(bench.Web, visitor);

        var refusal = await Should.ThrowAsync<SessionOverException>(() => new TestBench(small, first.Actor).WeighAsync(lot.RunId, step, TestBench.TareGrams(1)));
        refusal.Message.ShouldContain($"the session of {people.Technician.FullName} is over");
        await first.Closed.WaitAsync(TimeSpan.FromSeconds(1), TestContext.Current.CancellationToken);
        (await first.ActorNowAsync()).PersonId.ShouldBeNull();
        await new TestBench(small, second.Actor).WeighAsync(lot.RunId, step, TestBench.TareGrams(1));
        (await small.Bench().ViewAsync(lot.RunId)).Run.Weighings.ShouldHaveSingleItem().PersonName.ShouldBe(people.SecondTechnician.FullName);
    }

    [Theory]
    [InlineData(SessionEnd.AccountDisabled, "was disabled")]
    [InlineData(SessionEnd.AccessChanged, "roles or the password")]
    [InlineData(SessionEnd.BadgeRevoked, "was revoked")]
    [InlineData(SessionEnd.TerminalWithdrawn, "“Bench 1” was withdrawn")]
    public async Task An_open_screen_whose_ground_is_gone_closes_within_five_seconds_and_says_why(SessionEnd end, string words)
    {
        using var visitor = await bench.EnrolledAsync("Bench 1");
        var (small, person, by) = (bench.Small, bench.Small.People.Technician, bench.Small.People.Administrator.Actor);
        var badge = await small.Get<Badges>().IssueAsync(by, person.Id, default);
        using var read = await visitor.PostAsync("/sign-on", "/sign-on/badge", ("badge", badge.Code), ("to", "/"));
        await BenchWeb.SignOnAsync(visitor, person);
        await using var screen = await OpenScreen.OpenAsync(bench.Web, visitor);
        await (end switch
        {
            SessionEnd.AccountDisabled => small.Get<Accounts>().DisableAsync(by, person.Id, "Has left the mill", await VersionAsync(person), default),
            SessionEnd.AccessChanged => small.GiveRolesAsync(person, Role.Reviewer),
            SessionEnd.BadgeRevoked => small.Get<Badges>().RevokeAsync(by, (await small.Get<Badges>().OfPersonAsync(by, person.Id, default)).Single().Id, "Lost on the way home", default),
            _ => small.Get<TerminalRegister>().WithdrawAsync(by, (await small.Get<TerminalRegister>().AllAsync(by, default)).Single().Id, "The machine is broken", 1, default),
        });

        await Should.ThrowAsync<NotPermittedException>(() => small.Get<RunReading>().InStatesAsync(screen.Actor, [RunState.Planned], 10, default));
        await screen.Closed.WaitAsync(TimeSpan.FromSeconds(5), TestContext.Current.CancellationToken);
        (await TextAsync(visitor, "/sign-on")).ShouldContain(words);
    }

    private async Task<long> VersionAsync(TestPerson person) => (await bench.Small.Get<Accounts>().AllAsync(bench.Small.People.Administrator.Actor, default)).Single(one => one.Id == person.Id).Version;

    private static async Task<string> TextAsync(Visitor visitor, string address)
    {
        using var page = await visitor.OpenAsync(address);
        return WebUtility.HtmlDecode(await page.Content.ReadAsStringAsync());
    }
}
