using System.Security.Cryptography;

namespace ParticleLims.Web.Shell;

/// <summary>Headers on every answer: nothing third-party, no unsafe script, nothing kept by shared terminals.</summary>
internal sealed class SecurityHeaders(RequestDelegate next)
{
    /// <summary>Under this key the request's script nonce is found.</summary>
    public const string NonceKey = "csp-nonce";

    private const string FramedKey = "framed-by-own-pages";

    /// <summary>Lets our own pages, and nobody else's, show this answer inside a frame: a file that has no script and loads nothing.</summary>
    public static void LetOwnPagesFrame(HttpContext context) => context.Items[FramedKey] = true;

    public Task InvokeAsync(HttpContext context)
    {
        var nonce = Convert.ToBase64String(RandomNumberGenerator.GetBytes(18));
        context.Items[NonceKey] = nonce;
        context.Response.OnStarting(() =>
        {
            var headers = context.Response.Headers;
            headers.ContentSecurityPolicy = context.Items.ContainsKey(FramedKey)
                ? "default-src 'none'; style-src 'unsafe-inline'; object-src 'self'; base-uri 'none'; frame-ancestors 'self'; form-action 'none'"
                : $"default-src 'self'; script-src 'self' 'nonce-{nonce}'; style-src 'self' 'unsafe-inline'; img-src 'self' data:; frame-src 'self'; object-src 'none'; base-uri 'self'; frame-ancestors 'none'; form-action 'self'";
            headers.XContentTypeOptions = "nosniff";
            headers["Referrer-Policy"] = "no-referrer";
            headers["X-Robots-Tag"] = "noindex, nofollow";
            headers["Permissions-Policy"] = "camera=(self), serial=(self), microphone=(), geolocation=()";
            if (!headers.ContainsKey("Cache-Control"))
            {
                headers.CacheControl = "no-store";
            }

            return Task.CompletedTask;
        });
        return next(context);
    }
}
