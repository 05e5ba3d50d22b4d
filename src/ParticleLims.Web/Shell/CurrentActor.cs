using Microsoft.AspNetCore.Components.Authorization;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Web.Shell;

/// <summary>Who acts on this screen, and from which terminal.</summary>
public sealed class CurrentActor(AuthenticationStateProvider authentication, IHttpContextAccessor http, ReadPath reading)
{
    // The circuit's first request carries the cookie; later there is no request to ask.
    private readonly string mark = http.HttpContext is { } context ? TerminalCookie.MarkOf(context) : "unknown";
    private string? enrolled;

    /// <summary>The actor for a deed or a reading.</summary>
    public async Task<Actor> GetAsync() => SessionIdentity.ActorOf((await authentication.GetAuthenticationStateAsync()).User, mark);

    /// <summary>What the actor may do now, for showing or hiding; the services check again.</summary>
    public async Task<Standing> StandingAsync(CancellationToken cancellation = default)
    {
        var standing = await reading.StandingOfAsync(await GetAsync(), cancellation);
        enrolled = standing.EnrolledTerminal;
        return standing;
    }

    /// <summary>The terminal's name, as the record keeps it.</summary>
    public string Terminal => enrolled ?? mark;
}
