using Microsoft.AspNetCore.Authentication;
using Microsoft.AspNetCore.Mvc;
using ParticleLims.Laboratory.People;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Web.Shell;

/// <summary>Signing on and off: plain form posts, because a circuit cannot set a cookie.</summary>
internal static class SessionEndpoints
{
    public static void MapSessionEndpoints(this IEndpointRouteBuilder routes)
    {
        routes.MapPost("/sign-on", SignOnAsync).AllowAnonymous().AddEndpointFilter<FormGuard>().RequireRateLimiting(RateLimits.SignOn);
        routes.MapPost("/sign-off", SignOffAsync).AllowAnonymous().AddEndpointFilter<FormGuard>();
    }

    private static async Task<IResult> SignOnAsync(HttpContext context, SignOn signOn, [FromForm] string? name, [FromForm] string? password, [FromForm] string? to)
    {
        try
        {
            var person = await signOn.SignOnAsync(name ?? string.Empty, password ?? string.Empty, TerminalCookie.NameOf(context), context.RequestAborted);
            await SessionCookie.SignOnAsync(context, person);
            return Results.LocalRedirect(IsLocal(to) ? to! : "/");
        }
        catch (RefusedException refusal)
        {
            RefusalCookie.Give(context, refusal.Message);
            return Results.LocalRedirect($"/sign-on?to={Uri.EscapeDataString(IsLocal(to) ? to! : "/")}");
        }
    }

    private static async Task<IResult> SignOffAsync(HttpContext context, SignOn signOn)
    {
        if (SessionIdentity.PersonId(context.User) is { } id)
        {
            await signOn.SignOffAsync(new Actor(id, TerminalCookie.NameOf(context)), context.RequestAborted);
        }

        await context.SignOutAsync();
        context.Response.Headers["Clear-Site-Data"] = "\"cache\", \"storage\"";
        return Results.LocalRedirect("/sign-on");
    }

    private static bool IsLocal(string? to) => to is ['/', not ('/' or '\\'), ..] or "/";
}
