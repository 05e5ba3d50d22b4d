using System.Security.Cryptography;
using Microsoft.AspNetCore.DataProtection;

namespace ParticleLims.Web.Shell;

/// <summary>Carries a refusal from a form's post to the page shown after it. Sealed by the server, so that nobody else's words come onto the page.</summary>
internal static class RefusalCookie
{
    private const string Name = "particlelims-refusal";
    private static readonly TimeSpan Lasts = TimeSpan.FromMinutes(1);

    public static void Give(HttpContext context, string words) =>
        context.Response.Cookies.Append(Name, Seal(context).Protect(words, Lasts), new CookieOptions { HttpOnly = true, SameSite = SameSiteMode.Strict, Secure = context.Request.IsHttps, MaxAge = Lasts, IsEssential = true });

    public static string? Take(HttpContext context)
    {
        if (context.Request.Cookies[Name] is not { Length: > 0 } cookie)
        {
            return null;
        }

        context.Response.Cookies.Delete(Name);
        try
        {
            return Seal(context).Unprotect(cookie);
        }
        catch (CryptographicException)
        {
            return null;
        }
    }

    private static ITimeLimitedDataProtector Seal(HttpContext context) =>
        context.RequestServices.GetRequiredService<IDataProtectionProvider>().CreateProtector("refusal").ToTimeLimitedDataProtector();
}
