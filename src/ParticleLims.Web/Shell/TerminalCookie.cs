using System.Security.Cryptography;
using ParticleLims.Laboratory.Terminals;

namespace ParticleLims.Web.Shell;

/// <summary>
/// By what a browser is known: an enrolled terminal keeps a secret, any other browser a mark that was given to it once. The mark is no
/// secret; it only tells browsers apart in the record.
/// </summary>
internal static class TerminalCookie
{
    /// <summary>The cookie with the secret of an enrolled terminal.</summary>
    public const string SecretName = "particlelims-terminal-secret";

    private const string MarkName = "particlelims-terminal";
    private static readonly object SeenKey = new();

    /// <summary>Browsers keep no cookie for longer than 400 days; each sign-on page gives it anew.</summary>
    private static readonly TimeSpan Lasts = TimeSpan.FromDays(400);

    /// <summary>The mark of a browser; it is given when there is none.</summary>
    public static string MarkOf(HttpContext context)
    {
        if (context.Request.Cookies[MarkName] is { Length: > 3 and < 40 } known && known.All(letter => char.IsAsciiLetterOrDigit(letter) || letter == '-'))
        {
            return known;
        }

        if (context.Items.TryGetValue(MarkName, out var given) && given is string already)
        {
            return already;
        }

        var fresh = "T-" + Convert.ToHexString(RandomNumberGenerator.GetBytes(4));
        context.Items[MarkName] = fresh;
        Append(context, MarkName, fresh);
        return fresh;
    }

    /// <summary>The browser at which somebody stands: the enrolled terminal, or the mark.</summary>
    public static async Task<TerminalSeen> SeenAsync(HttpContext context) => await EnrolledAsync(context) is { } terminal ? new TerminalSeen(terminal.Name, terminal.Id) : new TerminalSeen(MarkOf(context));

    /// <summary>The enrolled terminal; null when the browser is none, or none any more.</summary>
    public static async Task<TerminalRow?> EnrolledAsync(HttpContext context) => await KnownAsync(context) is { WithdrawnAt: null } terminal ? terminal : null;

    /// <summary>The terminal that the browser is, or was until it was withdrawn. Asked once a request.</summary>
    public static async Task<TerminalRow?> KnownAsync(HttpContext context)
    {
        if (context.Items.TryGetValue(SeenKey, out var seen))
        {
            return (TerminalRow?)seen;
        }

        var register = context.RequestServices.GetRequiredService<TerminalRegister>();
        var found = context.Request.Cookies[SecretName] is { Length: > 0 and < 200 } secret ? await register.RecogniseAsync(secret, context.RequestAborted) : null;
        context.Items[SeenKey] = found;
        return found;
    }

    /// <summary>Gives the browser its secret.</summary>
    public static void Keep(HttpContext context, string secret)
    {
        context.Items.Remove(SeenKey);
        Append(context, SecretName, secret);
    }

    /// <summary>Gives the secret that the browser has for another 400 days.</summary>
    public static void KeepOn(HttpContext context)
    {
        if (context.Request.Cookies[SecretName] is { } secret)
        {
            Append(context, SecretName, secret);
        }
    }

    private static void Append(HttpContext context, string name, string value)
    {
        if (!context.Response.HasStarted)
        {
            context.Response.Cookies.Append(name, value, new CookieOptions { HttpOnly = true, SameSite = SameSiteMode.Strict, MaxAge = Lasts, IsEssential = true, Secure = context.Request.IsHttps });
        }
    }
}
