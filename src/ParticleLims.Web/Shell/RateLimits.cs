using System.Threading.RateLimiting;
using Microsoft.AspNetCore.RateLimiting;

namespace ParticleLims.Web.Shell;

/// <summary>How often one address may try what anybody may try. The wait after wrong passwords is the account's own and stands in <c>SignOn</c>.</summary>
public static class RateLimits
{
    /// <summary>The policy for signing on and setting up.</summary>
    public const string SignOn = "sign-on";

    /// <summary>The policy for the public check of certificates.</summary>
    public const string Verify = "verify";

    /// <summary>Tries to sign on from one address in a minute.</summary>
    public const int SignOnTriesPerMinute = 30;

    /// <summary>Certificate checks from one address in a minute.</summary>
    public const int VerifyTriesPerMinute = 60;

    internal static void Configure(RateLimiterOptions options)
    {
        options.RejectionStatusCode = StatusCodes.Status429TooManyRequests;
        options.AddPolicy(SignOn, context => PerMinute(context, Allowed(context, "RateLimits:SignOn", SignOnTriesPerMinute)));
        options.AddPolicy(Verify, context => PerMinute(context, VerifyTriesPerMinute));
        options.OnRejected = (context, _) =>
        {
            context.HttpContext.Response.Headers.RetryAfter = "60";
            return ValueTask.CompletedTask;
        };
    }

    // A laboratory whose terminals all come from one address can allow more: --RateLimits:SignOn=120.
    private static int Allowed(HttpContext context, string setting, int usual) => context.RequestServices.GetRequiredService<IConfiguration>().GetValue(setting, usual);

    private static RateLimitPartition<string> PerMinute(HttpContext context, int tries) =>
        RateLimitPartition.GetSlidingWindowLimiter(
            context.Connection.RemoteIpAddress?.ToString() ?? "unknown",
            _ => new SlidingWindowRateLimiterOptions { PermitLimit = tries, Window = TimeSpan.FromMinutes(1), SegmentsPerWindow = 6, QueueLimit = 0 });
}
