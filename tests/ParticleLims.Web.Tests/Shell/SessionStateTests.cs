using Microsoft.AspNetCore.Components.Authorization;
using Microsoft.Extensions.Logging;
using ParticleLims.Laboratory.People;
using ParticleLims.Laboratory.Terminals;
using ParticleLims.Web.Shell;
using Shouldly;
using Xunit;

namespace ParticleLims.Web.Tests.Shell;

public sealed class SessionStateTests : IAsyncLifetime
{
    private RunningWeb web = null!;

    public async ValueTask InitializeAsync() => web = await (await RunningWeb.StartAsync()).SetUpAsync();

    public ValueTask DisposeAsync() => web.DisposeAsync();

    [Fact]
    public async Task An_open_screen_of_a_disabled_account_is_closed_within_five_seconds()
    {
        var person = (await web.AddAsync("tom", Role.Technician)).PersonId!.Value;
        var signedOn = await web.Get<SignOn>().SignOnAsync("tom", "tom walks nine quiet miles", new TerminalSeen("test"), CancellationToken.None);
        using var screen = new SessionStateProvider(web.Get<ILoggerFactory>(), web.Get<Sessions>(), web.Get<SessionWatch>());
        ((IHostEnvironmentAuthenticationStateProvider)screen).SetAuthenticationState(Task.FromResult(StateOf(signedOn)));
        (await screen.GetAuthenticationStateAsync()).User.Identity!.IsAuthenticated.ShouldBeTrue();
        var closed = new TaskCompletionSource<AuthenticationState>(TaskCreationOptions.RunContinuationsAsynchronously);
        screen.AuthenticationStateChanged += async state => closed.TrySetResult(await state);

        var row = (await web.Get<Accounts>().AllAsync(web.Administrator, CancellationToken.None)).Single(one => one.Id == person);
        await web.Get<Accounts>().DisableAsync(web.Administrator, person, "has left the mill", row.Version, CancellationToken.None);
        var after = await closed.Task.WaitAsync(TimeSpan.FromSeconds(5), TestContext.Current.CancellationToken);
        (after.User.Identity?.IsAuthenticated ?? false).ShouldBeFalse();
    }

    [Fact]
    public async Task The_next_request_of_a_disabled_account_is_sent_to_sign_on()
    {
        var person = (await web.AddAsync("tom", Role.Technician)).PersonId!.Value;
        using var visitor = new Visitor(web);
        using var signedOn = await visitor.SignOnAsync("tom", "tom walks nine quiet miles");
        using var before = await visitor.OpenAsync("/lots");
        before.StatusCode.ShouldBe(System.Net.HttpStatusCode.OK);
        var row = (await web.Get<Accounts>().AllAsync(web.Administrator, CancellationToken.None)).Single(one => one.Id == person);
        await web.Get<Accounts>().DisableAsync(web.Administrator, person, "has left the mill", row.Version, CancellationToken.None);
        using var after = await visitor.OpenAsync("/lots");
        after.StatusCode.ShouldBe(System.Net.HttpStatusCode.Redirect);
    }

    private static AuthenticationState StateOf(SignedOn person) => new(SessionCookie.PrincipalOf(person));
}
