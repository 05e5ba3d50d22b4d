using Microsoft.AspNetCore.Authentication;
using Microsoft.AspNetCore.Mvc;
using ParticleLims.Laboratory.People;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Web.Shell;

/// <summary>Signing on and off, locking and handing over: plain form posts, because a circuit cannot set a cookie.</summary>
internal static class SessionEndpoints
{
    public static void MapSessionEndpoints(this IEndpointRouteBuilder routes)
    {
        routes.MapPost("/sign-on", SignOnAsync).AllowAnonymous().AddEndpointFilter<FormGuard>().RequireRateLimiting(RateLimits.SignOn);
        routes.MapPost("/sign-on/badge", ReadBadgeAsync).AllowAnonymous().AddEndpointFilter<FormGuard>().RequireRateLimiting(RateLimits.SignOn);
        routes.MapPost("/sign-on/pin", SignOnWithPinAsync).AllowAnonymous().AddEndpointFilter<FormGuard>().RequireRateLimiting(RateLimits.SignOn);
        routes.MapPost("/sign-on/code", SignOnWithCodeAsync).AllowAnonymous().AddEndpointFilter<FormGuard>().RequireRateLimiting(RateLimits.SignOn);
        routes.MapPost("/sign-on/passkey/question", AskPasskeyAsync).AllowAnonymous().AddEndpointFilter<FormGuard>().RequireRateLimiting(RateLimits.SignOn);
        routes.MapPost("/sign-on/passkey", SignOnWithPasskeyAsync).AllowAnonymous().AddEndpointFilter<FormGuard>().RequireRateLimiting(RateLimits.SignOn);
        routes.MapPost("/activate", ActivateAsync).AllowAnonymous().AddEndpointFilter<FormGuard>().RequireRateLimiting(RateLimits.SignOn);
        routes.MapPost("/sign-off", (HttpContext context, SignOn signOn) => LeaveAsync(context, signOn.SignOffAsync, null)).AllowAnonymous().AddEndpointFilter<FormGuard>();
        routes.MapPost("/lock", (HttpContext context, Sessions sessions, [FromForm] string? to) => LeaveAsync(context, sessions.LockAsync, to)).AllowAnonymous().AddEndpointFilter<FormGuard>();
        routes.MapPost("/hand-over", (HttpContext context, Sessions sessions, [FromForm] string? to) => LeaveAsync(context, sessions.HandOverAsync, to)).AllowAnonymous().AddEndpointFilter<FormGuard>();
    }

    /// <summary>Ends the session of a request: in the database first, then its screens, then its cookie.</summary>
    public static async Task<IResult> LeaveAsync(HttpContext context, Func<Actor, CancellationToken, Task<bool>> end, string? to)
    {
        if (SessionIdentity.ActorOf(context) is { SessionId: { } session } actor)
        {
            try
            {
                await end(actor, context.RequestAborted);
            }
            catch (RefusedException)
            {
                // It was over already: there is nothing left to end.
            }

            context.RequestServices.GetRequiredService<SessionWatch>().End(session);
        }

        await context.SignOutAsync();
        BadgeCookie.Forget(context);
        context.Response.Headers["Clear-Site-Data"] = "\"cache\", \"storage\"";
        return Results.LocalRedirect(to is null ? "/sign-on" : SignOnAddress(to));
    }

    private static Task<IResult> SignOnAsync(HttpContext context, SignOn signOn, [FromForm] string? name, [FromForm] string? password, [FromForm] string? to) =>
        TryAsync(context, to, "&with=password", async () => await signOn.SignOnAsync(name ?? string.Empty, password ?? string.Empty, await TerminalCookie.SeenAsync(context), context.RequestAborted));

    private static Task<IResult> SignOnWithCodeAsync(HttpContext context, SecondStep second, [FromForm] string? code, [FromForm] string? to) =>
        TryAsync(context, to, "&with=code", async () => await second.FinishAsync(SecondStepCookie.Read(context), code ?? string.Empty, await TerminalCookie.SeenAsync(context), context.RequestAborted));

    private static async Task<IResult> AskPasskeyAsync(HttpContext context, Passkeys passkeys) => Results.Json(await passkeys.AskAsync(PlaceOf(context), context.RequestAborted));

    private static Task<IResult> SignOnWithPasskeyAsync(HttpContext context, Passkeys passkeys, [FromForm] string? handle, [FromForm] string? answer, [FromForm] string? to) =>
        TryAsync(context, to, "&with=password", async () => await passkeys.SignOnAsync(new GivenPasskey(handle ?? string.Empty, answer ?? string.Empty), await TerminalCookie.SeenAsync(context), context.RequestAborted));

    private static PasskeyPlace PlaceOf(HttpContext context) => new(new Uri($"{context.Request.Scheme}://{context.Request.Host}"));

    private static async Task<IResult> ActivateAsync(HttpContext context, Activations activations, [FromForm] string? name, [FromForm] string? code, [FromForm] string? password, [FromForm] string? again)
    {
        try
        {
            if (password != again)
            {
                throw new RefusedException("password-again", "The two passwords are not the same. Give it twice.", "again");
            }

            await activations.UseAsync(name ?? string.Empty, code ?? string.Empty, password ?? string.Empty, await TerminalCookie.SeenAsync(context), context.RequestAborted);
            return Results.LocalRedirect("/sign-on?with=password&set=true");
        }
        catch (RefusedException refusal)
        {
            RefusalCookie.Give(context, refusal.Message);
            TypedName.Keep(context, name);
            return Results.LocalRedirect("/activate");
        }
    }

    private static Task<IResult> SignOnWithPinAsync(HttpContext context, PinSignOn signOn, [FromForm] Guid? person, [FromForm] string? pin, [FromForm] string? to)
    {
        var badge = BadgeCookie.Read(context) is { } seen && seen.PersonId == person ? seen : null;
        return TryAsync(context, to, $"&person={person}", async () => await signOn.SignOnAsync(await TerminalCookie.SeenAsync(context), person ?? Guid.Empty, badge?.BadgeId, pin ?? string.Empty, context.RequestAborted));
    }

    private static async Task<IResult> ReadBadgeAsync(HttpContext context, PinSignOn signOn, [FromForm] string? badge, [FromForm] string? to)
    {
        try
        {
            var seen = await signOn.ReadBadgeAsync(await TerminalCookie.SeenAsync(context), badge ?? string.Empty, context.RequestAborted);
            BadgeCookie.Give(context, seen);
            return Results.LocalRedirect($"{SignOnAddress(to)}&person={seen.PersonId}");
        }
        catch (RefusedException refusal)
        {
            RefusalCookie.Give(context, refusal.Message);
            return Results.LocalRedirect(SignOnAddress(to));
        }
    }

    private static async Task<IResult> TryAsync(HttpContext context, string? to, string again, Func<Task<SignedOn>> signOn)
    {
        try
        {
            var signedOn = await signOn();
            await SessionCookie.SignOnAsync(context, signedOn);
            BadgeCookie.Forget(context);
            SecondStepCookie.Forget(context);
            return Results.LocalRedirect(IsLocal(to) ? to! : "/");
        }
        catch (SecondStepException step)
        {
            SecondStepCookie.Give(context, step.Handle);
            return Results.LocalRedirect(SignOnAddress(to) + "&with=code");
        }
        catch (RefusedException refusal) when (refusal.Code == "first-step-missing")
        {
            RefusalCookie.Give(context, refusal.Message);
            return Results.LocalRedirect(SignOnAddress(to) + "&with=password");
        }
        catch (RefusedException refusal)
        {
            RefusalCookie.Give(context, refusal.Message);
            return Results.LocalRedirect(SignOnAddress(to) + again);
        }
    }

    private static string SignOnAddress(string? to) => $"/sign-on?to={Uri.EscapeDataString(IsLocal(to) ? to! : "/")}";

    private static bool IsLocal(string? to) => to is ['/', not ('/' or '\\'), ..] or "/";
}
