using Microsoft.AspNetCore.Components.Authorization;
using Microsoft.AspNetCore.Components.Server;
using ParticleLims.Laboratory.People;

namespace ParticleLims.Web.Shell;

/// <summary>Looks every few seconds whether an open screen's person still counts, so that a disabled account loses its open screens too.</summary>
internal sealed class SessionStateProvider(ILoggerFactory loggers, SignOn signOn) : RevalidatingServerAuthenticationStateProvider(loggers)
{
    protected override TimeSpan RevalidationInterval => TimeSpan.FromSeconds(4);

    protected override Task<bool> ValidateAuthenticationStateAsync(AuthenticationState authenticationState, CancellationToken cancellationToken) =>
        SessionIdentity.IsCurrentAsync(signOn, authenticationState.User, cancellationToken);
}
