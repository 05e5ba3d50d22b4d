using Microsoft.AspNetCore.Http.Features;

namespace ParticleLims.Web.Shell;

/// <summary>Refuses a live connection that a page of another origin asks for: the browser would send our cookies along, and sockets know no same-origin rule.</summary>
internal sealed class SocketOrigin(RequestDelegate next)
{
    public Task InvokeAsync(HttpContext context)
    {
        if (IsForSocket(context) && !IsOurs(context.Request))
        {
            context.Response.StatusCode = StatusCodes.Status403Forbidden;
            return Task.CompletedTask;
        }

        return next(context);
    }

    // Asked of the request itself, because the framework knows sockets only further on: by upgrade in HTTP/1.1, by extended connect in HTTP/2 (RFC 8441).
    private static bool IsForSocket(HttpContext context) =>
        context.Request.Headers.Upgrade.Any(protocol => string.Equals(protocol, "websocket", StringComparison.OrdinalIgnoreCase))
        || string.Equals(context.Features.Get<IHttpExtendedConnectFeature>()?.Protocol, "websocket", StringComparison.OrdinalIgnoreCase);

    private static bool IsOurs(HttpRequest request) =>
        Uri.TryCreate(request.Headers.Origin.ToString(), UriKind.Absolute, out var origin) && origin.Scheme == request.Scheme && string.Equals(origin.Authority, Authority(request), StringComparison.OrdinalIgnoreCase);

    // A usual port is left out by the browser, whether or not the request names it.
    private static string Authority(HttpRequest request) => new Uri($"{request.Scheme}://{request.Host}").Authority;
}
