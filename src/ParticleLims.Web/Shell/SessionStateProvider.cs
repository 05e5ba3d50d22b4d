using System.Security.Claims;
using Microsoft.AspNetCore.Components.Authorization;
using Microsoft.AspNetCore.Components.Server;
using ParticleLims.Laboratory.People;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Web.Shell;

/// <summary>
/// Ends an open screen with its session: at once where this program ended it, and otherwise at the next look, which is taken every few
/// seconds and also sees a disabled account, changed roles, a revoked badge and a withdrawn terminal.
/// </summary>
internal sealed class SessionStateProvider : RevalidatingServerAuthenticationStateProvider
{
    private static readonly AuthenticationState Nobody = new(new ClaimsPrincipal(new ClaimsIdentity()));
    private readonly Sessions sessions;
    private readonly SessionWatch watch;

    public SessionStateProvider(ILoggerFactory loggers, Sessions sessions, SessionWatch watch)
        : base(loggers)
    {
        (this.sessions, this.watch) = (sessions, watch);
        watch.Ended += OnEnded;
    }

    protected override TimeSpan RevalidationInterval => TimeSpan.FromSeconds(4);

    protected override async Task<bool> ValidateAuthenticationStateAsync(AuthenticationState authenticationState, CancellationToken cancellationToken)
    {
        try
        {
            return await SessionIdentity.LookAsync(sessions, authenticationState.User, cancellationToken) is { Over: null };
        }
        catch (DatabaseTroubledException)
        {
            // Without its database nobody can do anything here: the screen stays and says so, and the next look decides.
            return true;
        }
    }

    protected override void Dispose(bool disposing)
    {
        watch.Ended -= OnEnded;
        base.Dispose(disposing);
    }

    private void OnEnded(object? sender, SessionEndedEventArgs ended) => _ = EndAsync(ended.Session);

    private async Task EndAsync(Guid session)
    {
        try
        {
            var state = await GetAuthenticationStateAsync();
            if (SessionIdentity.SessionId(state.User) == session)
            {
                SetAuthenticationState(Task.FromResult(Nobody));
            }
        }
        catch (InvalidOperationException)
        {
            // This screen has no state yet: it is asked for when it gets one.
        }
    }
}
