using System.Security.Claims;
using Microsoft.AspNetCore.Authentication.Cookies;
using Microsoft.AspNetCore.Components.Authorization;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Options;
using ParticleLims.Laboratory.Record;
using ParticleLims.Web.Shell;
using ParticleLims.Web.Tests.Shell;

namespace ParticleLims.Web.Tests.Terminals;

/// <summary>
/// What a circuit keeps of the request with which it began: the services of its scope, and the person of the cookie. A page in it acts as
/// <see cref="Actor"/>, which it asked for when it was opened.
/// </summary>
public sealed class OpenScreen : IAsyncDisposable
{
    private readonly AsyncServiceScope scope;
    private readonly TaskCompletionSource closed = new(TaskCreationOptions.RunContinuationsAsynchronously);

    private OpenScreen(AsyncServiceScope scope) => this.scope = scope;

    /// <summary>Who a page of this screen acts as.</summary>
    public Actor Actor { get; private set; } = Actor.Unknown("nowhere");

    /// <summary>Ends when the screen has nobody signed on any more.</summary>
    public Task Closed => closed.Task;

    /// <summary>Opens one with the cookies of a browser.</summary>
    public static async Task<OpenScreen> OpenAsync(RunningWeb web, Visitor visitor)
    {
        ArgumentNullException.ThrowIfNull(web);
        ArgumentNullException.ThrowIfNull(visitor);
        var screen = new OpenScreen(web.Services.CreateAsyncScope());
        var provider = screen.scope.ServiceProvider.GetRequiredService<AuthenticationStateProvider>();
        ((IHostEnvironmentAuthenticationStateProvider)provider).SetAuthenticationState(Task.FromResult(new AuthenticationState(PersonOf(web, visitor))));
        provider.AuthenticationStateChanged += async state =>
        {
            if ((await state).User.Identity is not { IsAuthenticated: true })
            {
                screen.closed.TrySetResult();
            }
        };
        screen.Actor = await screen.ActorNowAsync();
        return screen;
    }

    /// <summary>Who a page that is opened now on this screen acts as.</summary>
    public Task<Actor> ActorNowAsync() => scope.ServiceProvider.GetRequiredService<CurrentActor>().GetAsync();

    /// <inheritdoc />
    public ValueTask DisposeAsync() => scope.DisposeAsync();

    private static ClaimsPrincipal PersonOf(RunningWeb web, Visitor visitor)
    {
        var format = web.Get<IOptionsMonitor<CookieAuthenticationOptions>>().Get(CookieAuthenticationDefaults.AuthenticationScheme);
        return format.TicketDataFormat.Unprotect(visitor.Cookies.GetCookies(web.Address)[format.Cookie.Name!]?.Value)?.Principal ?? new ClaimsPrincipal(new ClaimsIdentity());
    }
}
