using System.Security.Cryptography;

namespace ParticleLims.Web.Shell;

/// <summary>A name by which the record tells terminals apart: given to each browser once. Enrolled terminals get a name of their own later.</summary>
internal static class TerminalCookie
{
    private const string Name = "particlelims-terminal";

    public static string NameOf(HttpContext context)
    {
        if (context.Request.Cookies[Name] is { Length: > 3 and < 40 } known && known.All(letter => char.IsAsciiLetterOrDigit(letter) || letter == '-'))
        {
            return known;
        }

        if (context.Items.TryGetValue(Name, out var given) && given is string already)
        {
            return already;
        }

        var fresh = "T-" + Convert.ToHexString(RandomNumberGenerator.GetBytes(4));
        context.Items[Name] = fresh;
        if (!context.Response.HasStarted)
        {
            context.Response.Cookies.Append(Name, fresh, new CookieOptions { HttpOnly = true, SameSite = SameSiteMode.Strict, MaxAge = TimeSpan.FromDays(3650), IsEssential = true, Secure = context.Request.IsHttps });
        }

        return fresh;
    }
}
