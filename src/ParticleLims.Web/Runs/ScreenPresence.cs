using Microsoft.AspNetCore.Components.Server.Circuits;

namespace ParticleLims.Web.Runs;

/// <summary>
/// Whether somebody's browser shows this screen now. A closed browser's screen lives on in the server for a while; it must not
/// weigh under the name of somebody who has gone.
/// </summary>
public sealed class ScreenPresence : CircuitHandler
{
    /// <summary>Whether the browser is connected.</summary>
    public bool IsThere { get; private set; }

    /// <inheritdoc />
    public override Task OnConnectionUpAsync(Circuit circuit, CancellationToken cancellationToken)
    {
        IsThere = true;
        return Task.CompletedTask;
    }

    /// <inheritdoc />
    public override Task OnConnectionDownAsync(Circuit circuit, CancellationToken cancellationToken)
    {
        IsThere = false;
        return Task.CompletedTask;
    }
}
