namespace ParticleLims.Web.Shell;

/// <summary>Remembers between password and code which first step is gone on with: a random handle, good for minutes.</summary>
internal static class SecondStepCookie
{
    private const string Name = "particlelims-step";

    public static void Give(HttpContext context, string handle) => context.Response.Cookies.Append(
        Name, handle, new CookieOptions { HttpOnly = true, SameSite = SameSiteMode.Strict, Secure = context.Request.IsHttps, MaxAge = TimeSpan.FromMinutes(5), IsEssential = true });

    public static string Read(HttpContext context) => context.Request.Cookies[Name] ?? string.Empty;

    public static void Forget(HttpContext context) => context.Response.Cookies.Delete(Name);
}
