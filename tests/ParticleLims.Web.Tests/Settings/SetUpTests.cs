using System.Net;
using ParticleLims.Laboratory.Settings;
using ParticleLims.Web.Tests.Shell;
using Shouldly;
using Xunit;

namespace ParticleLims.Web.Tests.Settings;

public sealed class SetUpTests : IAsyncLifetime
{
    private const string Password = "seven blue kettles sing";
    private RunningWeb web = null!;

    public async ValueTask InitializeAsync() => web = await RunningWeb.StartAsync();

    public ValueTask DisposeAsync() => web.DisposeAsync();

    [Fact]
    public async Task The_link_opens_a_form_that_makes_the_laboratory_and_its_first_administrator()
    {
        using var visitor = new Visitor(web);
        var link = await web.Get<LaboratorySetUp>().MakeLinkAsync(CancellationToken.None);
        using var done = await PostAsync(visitor, link, Password, Password);
        done.StatusCode.ShouldBe(HttpStatusCode.Redirect, await done.Content.ReadAsStringAsync());
        using var signedOn = await visitor.SignOnAsync("ada", Password);
        signedOn.Headers.Location!.ToString().ShouldBe("/");
        using var people = await visitor.OpenAsync("/people");
        people.StatusCode.ShouldBe(HttpStatusCode.OK);
    }

    [Fact]
    public async Task What_is_refused_is_said_and_what_was_typed_stays_but_for_the_password()
    {
        using var visitor = new Visitor(web);
        var link = await web.Get<LaboratorySetUp>().MakeLinkAsync(CancellationToken.None);
        using var different = await PostAsync(visitor, link, Password, "something else altogether");
        var html = await different.Content.ReadAsStringAsync();
        Visitor.RefusalIn(html).ShouldBe("The two passwords are not the same. Type both again.");
        html.ShouldContain("Tarnfell Milling");
        html.ShouldNotContain(Password);
        using var tooShort = await PostAsync(visitor, link, "short", "short");
        Visitor.RefusalIn(await tooShort.Content.ReadAsStringAsync())!.ShouldStartWith("A password has 15 to");
        (await web.Get<LaboratorySetUp>().IsDoneAsync(CancellationToken.None)).ShouldBeFalse();
    }

    [Fact]
    public async Task A_link_that_a_newer_one_replaced_is_refused_in_words()
    {
        using var visitor = new Visitor(web);
        var earlier = await web.Get<LaboratorySetUp>().MakeLinkAsync(CancellationToken.None);
        var later = await web.Get<LaboratorySetUp>().MakeLinkAsync(CancellationToken.None);
        (await visitor.RefusalAsync("/set-up?link=" + earlier))!.ShouldContain("was used already or has expired");
        (await visitor.RefusalAsync("/set-up?link=" + later)).ShouldBeNull();
        (await visitor.RefusalAsync("/set-up"))!.ShouldContain("was used already or has expired");
    }

    [Fact]
    public async Task A_link_works_once()
    {
        using var visitor = new Visitor(web);
        var link = await web.Get<LaboratorySetUp>().MakeLinkAsync(CancellationToken.None);
        using var done = await PostAsync(visitor, link, Password, Password);
        (await visitor.RefusalAsync("/set-up?link=" + link)).ShouldBe("This laboratory is set up already. Sign on instead.");
    }

    private static Task<HttpResponseMessage> PostAsync(Visitor visitor, string link, string password, string again) => visitor.PostAsync(
        "/set-up?link=" + link, "/set-up?link=" + link,
        ("_handler", "set-up"), ("Form.Link", link), ("Form.Laboratory", "Tarnfell Milling"), ("Form.Address", "Mill Lane 1"), ("Form.Contact", "laboratory@tarnfell.example"), ("Form.TimeZone", "Europe/Dublin"),
        ("Form.PublicAddress", "https://tarnfell.example"), ("Form.FullName", "Ada Field"), ("Form.SignOnName", "ada"), ("Form.Password", password), ("Form.PasswordAgain", again));
}
