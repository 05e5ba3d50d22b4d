using System.Security.Claims;
using Microsoft.AspNetCore.Authentication;
using Microsoft.AspNetCore.Authentication.Cookies;
using ParticleLims.Laboratory.People;

namespace ParticleLims.Web.Shell;

/// <summary>The session's cookie: ends with the browser, is read by no script, and names a session that the server keeps.</summary>
internal static class SessionCookie
{
    public const string SessionClaim = "session";

    public static void Configure(CookieAuthenticationOptions options)
    {
        options.Cookie.Name = "particlelims-session";
        options.Cookie.HttpOnly = true;
        options.Cookie.SameSite = SameSiteMode.Strict;
        options.Cookie.SecurePolicy = CookieSecurePolicy.SameAsRequest;
        options.ExpireTimeSpan = Session.Longest;
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

    /// <summary>Gives the cookie of a session that has begun. Sessions that are over by it end their screens.</summary>
    public static Task SignOnAsync(HttpContext context, SignedOn person)
    {
        var watch = context.RequestServices.GetRequiredService<SessionWatch>();
        foreach (var ended in person.Ended)
        {
            watch.End(ended);
        }

        return context.SignInAsync(CookieAuthenticationDefaults.AuthenticationScheme, PrincipalOf(person), new AuthenticationProperties { IsPersistent = false });
    }

    /// <summary>The person of a session.</summary>
    public static ClaimsPrincipal PrincipalOf(SignedOn person) => new(new ClaimsIdentity(
        [new(ClaimTypes.NameIdentifier, person.PersonId.ToString("D")), new(ClaimTypes.Name, person.FullName), new(SessionClaim, person.SessionId.ToString("D"))],
        CookieAuthenticationDefaults.AuthenticationScheme));

    private static async Task ValidateAsync(CookieValidatePrincipalContext context)
    {
        var http = context.HttpContext;
        var session = await SessionIdentity.LookAsync(http.RequestServices.GetRequiredService<Sessions>(), context.Principal, http.RequestAborted);
        if (session is not { Over: null } || !await IsItsTerminalAsync(http, session))
        {
            context.RejectPrincipal();
            await http.SignOutAsync(CookieAuthenticationDefaults.AuthenticationScheme);
        }
        else if (session.TerminalId is not null)
        {
            http.RequestServices.GetRequiredService<SessionWatch>().Follow(session.Id);
        }
    }

    // A cookie that was carried to another browser is of no use there.
    private static async Task<bool> IsItsTerminalAsync(HttpContext context, SessionSeen session) =>
        session.TerminalId is null || (await TerminalCookie.EnrolledAsync(context))?.Id == session.TerminalId;
}
