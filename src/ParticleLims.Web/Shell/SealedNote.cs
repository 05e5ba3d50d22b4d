using System.Security.Cryptography;
using Microsoft.AspNetCore.DataProtection;

namespace ParticleLims.Web.Shell;

/// <summary>A few words that a form's post leaves for the page shown after it: sealed by the server, read by no script, taken once, and gone after a minute.</summary>
/// <param name="name">The cookie's name.</param>
/// <param name="purpose">What the seal is good for, so that no note passes for another.</param>
internal sealed class SealedNote(string name, string purpose)
{
    private static readonly TimeSpan Lasts = TimeSpan.FromMinutes(1);

    public void Give(HttpContext context, string words) =>
        context.Response.Cookies.Append(name, Seal(context).Protect(words, Lasts), new CookieOptions { HttpOnly = true, SameSite = SameSiteMode.Strict, Secure = context.Request.IsHttps, MaxAge = Lasts, IsEssential = true });

    public string? Take(HttpContext context)
    {
        if (context.Request.Cookies[name] is not { Length: > 0 } cookie)
        {
            return null;
        }

        context.Response.Cookies.Delete(name);
        try
        {
            return Seal(context).Unprotect(cookie);
        }
        catch (CryptographicException)
        {
            return null;
        }
    }

    private ITimeLimitedDataProtector Seal(HttpContext context) =>
        context.RequestServices.GetRequiredService<IDataProtectionProvider>().CreateProtector(purpose).ToTimeLimitedDataProtector();
}
