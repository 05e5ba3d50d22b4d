using System.Net;
using ParticleLims.Laboratory.People;
using Shouldly;
using Xunit;

namespace ParticleLims.Web.Tests.Shell;

public sealed class SignOnTests : IAsyncLifetime
{
    private const string Password = "tom walks nine quiet miles";
    private RunningWeb web = null!;

    public async ValueTask InitializeAsync()
    {
        web = await (await RunningWeb.StartAsync()).SetUpAsync();
        await web.AddAsync("tom", Role.Technician);
    }

    public ValueTask DisposeAsync() => web.DisposeAsync();

    [Fact]
    public async Task Whoever_is_not_signed_on_is_sent_to_sign_on_and_back_to_the_page()
    {
        using var visitor = new Visitor(web);
        using var asked = await visitor.OpenAsync("/lots");
        asked.StatusCode.ShouldBe(HttpStatusCode.Redirect);
        asked.Headers.Location!.ToString().ShouldEndWith("/sign-on?to=%2Flots");
        using var signedOn = await visitor.SignOnAsync("Tom", Password, "/lots");
        signedOn.Headers.Location!.ToString().ShouldBe("/lots");
        using var lots = await visitor.OpenAsync("/lots");
        lots.StatusCode.ShouldBe(HttpStatusCode.OK);
        (await lots.Content.ReadAsStringAsync()).ShouldContain("Test tom");
    }

    [Fact]
    public async Task The_session_is_read_by_no_script_and_sent_from_no_other_site()
    {
        using var visitor = new Visitor(web);
        using var signedOn = await visitor.SignOnAsync("tom", Password);
        var cookie = signedOn.Headers.GetValues("Set-Cookie").Single(one => one.StartsWith("particlelims-session=", StringComparison.Ordinal));
        cookie.ShouldContain("httponly");
        cookie.ShouldContain("samesite=strict");
        cookie.ShouldNotContain("expires=");
        cookie.ShouldNotContain("max-age=");
    }

    [Fact]
    public async Task A_wrong_password_and_an_unknown_name_are_refused_in_the_same_words()
    {
        using var visitor = new Visitor(web);
        using (var wrong = await visitor.SignOnAsync("tom", "not the password at all"))
        {
            wrong.Headers.Location!.ToString().ShouldStartWith("/sign-on");
        }

        var words = await visitor.RefusalAsync("/sign-on");
        words.ShouldBe("The sign-on name and the password do not belong together.");
        using var unknown = await visitor.SignOnAsync("nobody-here", "not the password at all");
        (await visitor.RefusalAsync("/sign-on")).ShouldBe(words);
        (await visitor.RefusalAsync("/sign-on")).ShouldBeNull("it is said once");
    }

    [Fact]
    public async Task After_five_wrong_tries_even_the_right_password_has_to_wait()
    {
        using var visitor = new Visitor(web);
        for (var attempt = 0; attempt < SecretTries.Free + 2; attempt++)
        {
            using var wrong = await visitor.SignOnAsync("tom", "not the password at all");
        }

        using var right = await visitor.SignOnAsync("tom", Password);
        right.Headers.Location!.ToString().ShouldStartWith("/sign-on");
        (await visitor.RefusalAsync("/sign-on"))!.ShouldStartWith("Too many wrong tries.");
    }

    [Theory]
    [InlineData("/sign-on")]
    [InlineData("/sign-off")]
    public async Task A_form_from_elsewhere_does_nothing(string address)
    {
        using var visitor = new Visitor(web);
        using var answer = await visitor.PostBareAsync(address, ("name", "tom"), ("password", Password));
        answer.StatusCode.ShouldBe(HttpStatusCode.BadRequest);
        (await answer.Content.ReadAsStringAsync()).ShouldContain("Nothing was done");
        visitor.Cookies.GetCookies(web.Address).ShouldNotContain(cookie => cookie.Name == "particlelims-session");
    }

    [Theory]
    [InlineData("https://elsewhere.example/")]
    [InlineData("//elsewhere.example/")]
    [InlineData("/\\elsewhere.example/")]
    public async Task Signing_on_leads_nowhere_else(string to)
    {
        using var visitor = new Visitor(web);
        using var signedOn = await visitor.SignOnAsync("tom", Password, to);
        signedOn.Headers.Location!.ToString().ShouldBe("/");
    }

    [Fact]
    public async Task Words_that_somebody_puts_into_a_link_or_a_cookie_do_not_come_onto_the_page()
    {
        using var visitor = new Visitor(web);
        visitor.Cookies.Add(web.Address, new Cookie("particlelims-refusal", "Call-555"));
        using var page = await visitor.OpenAsync("/sign-on?refused=Call-555&name=Call-555");
        (await page.Content.ReadAsStringAsync()).ShouldNotContain("Call-555");
    }

    [Fact]
    public async Task After_signing_off_the_pages_are_closed()
    {
        using var visitor = new Visitor(web);
        using var signedOn = await visitor.SignOnAsync("tom", Password);
        using var signedOff = await visitor.PostAsync("/account", "/sign-off");
        signedOff.StatusCode.ShouldBe(HttpStatusCode.Redirect);
        using var lots = await visitor.OpenAsync("/lots");
        lots.StatusCode.ShouldBe(HttpStatusCode.Redirect);
    }

    [Fact]
    public async Task One_address_may_try_so_often_in_a_minute_and_no_more()
    {
        using var visitor = new Visitor(web);
        var statuses = new List<HttpStatusCode>();
        for (var attempt = 0; attempt <= Web.Shell.RateLimits.SignOnTriesPerMinute; attempt++)
        {
            using var answer = await visitor.PostBareAsync("/sign-on");
            statuses.Add(answer.StatusCode);
        }

        statuses[..^1].ShouldAllBe(status => status == HttpStatusCode.BadRequest);
        statuses[^1].ShouldBe(HttpStatusCode.TooManyRequests);
    }
}
