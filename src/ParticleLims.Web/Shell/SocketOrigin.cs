namespace ParticleLims.Web.Shell;

/// <summary>Refuses a live connection that a page of another origin asks for: the browser would send our cookies along, and sockets know no same-origin rule.</summary>
internal sealed class SocketOrigin(RequestDelegate next)
{
    public Task InvokeAsync(HttpContext context)
    {
        if (context.WebSockets.IsWebSocketRequest && !IsOurs(context.Request))
        {
            context.Response.StatusCode = StatusCodes.Status403Forbidden;
            return Task.CompletedTask;
        }

        return next(context);
    }

    private static bool IsOurs(HttpRequest request) =>
        Uri.TryCreate(request.Headers.Origin.ToString(), UriKind.Absolute, out var origin) && origin.Scheme == request.Scheme && string.Equals(origin.Authority, Authority(request), StringComparison.OrdinalIgnoreCase);

    // A usual port is left out by the browser, whether or not the request names it.
    private static string Authority(HttpRequest request) => new Uri($"{request.Scheme}://{request.Host}").Authority;
}
