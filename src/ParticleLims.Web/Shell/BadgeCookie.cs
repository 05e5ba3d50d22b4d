using System.Security.Cryptography;
using System.Text.Json;
using Microsoft.AspNetCore.DataProtection;
using ParticleLims.Laboratory.People;

namespace ParticleLims.Web.Shell;

/// <summary>Remembers between badge and PIN whose badge was read. Sealed by the server, and forgotten after two minutes.</summary>
internal static class BadgeCookie
{
    private const string Name = "particlelims-badge";
    private static readonly TimeSpan Lasts = TimeSpan.FromMinutes(2);

    public static void Give(HttpContext context, BadgeSeen badge) =>
        context.Response.Cookies.Append(Name, Seal(context).Protect(JsonSerializer.Serialize(badge), Lasts), new CookieOptions { HttpOnly = true, SameSite = SameSiteMode.Strict, Secure = context.Request.IsHttps, MaxAge = Lasts, IsEssential = true });

    public static BadgeSeen? Read(HttpContext context)
    {
        try
        {
            return context.Request.Cookies[Name] is { Length: > 0 } cookie ? JsonSerializer.Deserialize<BadgeSeen>(Seal(context).Unprotect(cookie)) : null;
        }
        catch (CryptographicException)
        {
            return null;
        }
    }

    public static void Forget(HttpContext context) => context.Response.Cookies.Delete(Name);

    private static ITimeLimitedDataProtector Seal(HttpContext context) =>
        context.RequestServices.GetRequiredService<IDataProtectionProvider>().CreateProtector("badge").ToTimeLimitedDataProtector();
}
