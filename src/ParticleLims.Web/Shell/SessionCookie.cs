using System.Security.Claims;
using Microsoft.AspNetCore.Authentication;
using Microsoft.AspNetCore.Authentication.Cookies;
using ParticleLims.Laboratory.People;

namespace ParticleLims.Web.Shell;

/// <summary>The session's cookie: ends with the browser, is read by no script, and counts only while the account does.</summary>
internal static class SessionCookie
{
    public const string StampClaim = "stamp";

    public static void Configure(CookieAuthenticationOptions options)
    {
        options.Cookie.Name = "particlelims-session";
        options.Cookie.HttpOnly = true;
        options.Cookie.SameSite = SameSiteMode.Strict;
        options.Cookie.SecurePolicy = CookieSecurePolicy.SameAsRequest;
        options.ExpireTimeSpan = TimeSpan.FromHours(12);
        options.SlidingExpiration = false;
        options.LoginPath = "/sign-on";
        options.LogoutPath = "/sign-off";
        options.ReturnUrlParameter = "to";
        options.Events.OnRedirectToAccessDenied = context =>
        {
            context.Response.StatusCode = StatusCodes.Status403Forbidden;
            return Task.CompletedTask;
        };
        options.Events.OnValidatePrincipal = ValidateAsync;
    }

    public static Task SignOnAsync(HttpContext context, SignedOn person)
    {
        var identity = new ClaimsIdentity(
            [new(ClaimTypes.NameIdentifier, person.PersonId.ToString("D")), new(ClaimTypes.Name, person.FullName), new(StampClaim, person.SecurityStamp)],
            CookieAuthenticationDefaults.AuthenticationScheme);
        return context.SignInAsync(CookieAuthenticationDefaults.AuthenticationScheme, new ClaimsPrincipal(identity), new AuthenticationProperties { IsPersistent = false });
    }

    private static async Task ValidateAsync(CookieValidatePrincipalContext context)
    {
        var signOn = context.HttpContext.RequestServices.GetRequiredService<SignOn>();
        if (!await SessionIdentity.IsCurrentAsync(signOn, context.Principal, context.HttpContext.RequestAborted))
        {
            context.RejectPrincipal();
            await context.HttpContext.SignOutAsync(CookieAuthenticationDefaults.AuthenticationScheme);
        }
    }
}

/// <summary>Who a principal is.</summary>
internal static class SessionIdentity
{
    public static Guid? PersonId(ClaimsPrincipal? principal) => Guid.TryParse(principal?.FindFirstValue(ClaimTypes.NameIdentifier), out var id) ? id : null;

    public static async Task<bool> IsCurrentAsync(SignOn signOn, ClaimsPrincipal? principal, CancellationToken cancellation) =>
        PersonId(principal) is { } id && principal?.FindFirstValue(SessionCookie.StampClaim) is { } stamp && await signOn.IsCurrentAsync(id, stamp, cancellation);
}
