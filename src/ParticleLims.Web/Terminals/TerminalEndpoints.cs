using Microsoft.AspNetCore.Mvc;
using ParticleLims.Laboratory.People;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Terminals;
using ParticleLims.Web.Shell;

namespace ParticleLims.Web.Terminals;

/// <summary>Enrols the browser that posts: by the administrator who is signed on there, or by a code.</summary>
internal static class TerminalEndpoints
{
    public static void MapTerminals(this IEndpointRouteBuilder routes)
    {
        routes.MapPost("/terminals/enrol-here", EnrolHereAsync).WithMetadata(new NeedsAttribute(Permission.KeepTerminals)).AddEndpointFilter<FormGuard>();
        routes.MapPost("/enrol/code", EnrolByCodeAsync).AllowAnonymous().AddEndpointFilter<FormGuard>().RequireRateLimiting(RateLimits.SignOn);
    }

    private static async Task<IResult> EnrolHereAsync(HttpContext context, TerminalRegister register, Sessions sessions, [FromForm] string? name, [FromForm] string? place, [FromForm] string? scanner)
    {
        try
        {
            await RequireNoneAsync(context);
            TerminalCookie.Keep(context, await register.EnrolAsync(SessionIdentity.ActorOf(context), new TerminalCard(name ?? string.Empty, place ?? string.Empty, scanner is not null), context.RequestAborted));
        }
        catch (RefusedException refusal)
        {
            RefusalCookie.Give(context, refusal.Message);
            return Results.LocalRedirect("/terminals/enrol");
        }

        // The administrator's own session is not one of this terminal, so it would never lock here.
        return await SessionEndpoints.LeaveAsync(context, sessions.EndEnrolledAsync, null);
    }

    private static async Task<IResult> EnrolByCodeAsync(HttpContext context, TerminalRegister register, Sessions sessions, [FromForm] string? code)
    {
        try
        {
            await RequireNoneAsync(context);
            TerminalCookie.Keep(context, await register.EnrolByCodeAsync(code ?? string.Empty, await TerminalCookie.SeenAsync(context), context.RequestAborted));
        }
        catch (RefusedException refusal)
        {
            RefusalCookie.Give(context, refusal.Message);
            return Results.LocalRedirect("/enrol");
        }

        return await SessionEndpoints.LeaveAsync(context, sessions.EndEnrolledAsync, null);
    }

    private static async Task RequireNoneAsync(HttpContext context)
    {
        if (await TerminalCookie.EnrolledAsync(context) is { } already)
        {
            throw new RefusedException("terminal-enrolled", $"This browser is the terminal “{already.Name}” already. Rename it under Terminals, or withdraw it first.");
        }
    }
}
