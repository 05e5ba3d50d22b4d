using Serilog.AspNetCore;
using Serilog.Events;

namespace ParticleLims.Web.Shell;

/// <summary>One line in the log for a request that went wrong. Queries are never written, and codes in addresses are masked: both may be secrets.</summary>
internal static class RequestNotes
{
    public static void Configure(RequestLoggingOptions options)
    {
        options.MessageTemplate = "{RequestMethod} {RequestPath} answered {StatusCode} in {Elapsed:0} ms";
        options.GetLevel = (context, _, fault) => fault is not null || context.Response.StatusCode >= 500 ? LogEventLevel.Error
            : context.Response.StatusCode is 400 or 403 or 429 ? LogEventLevel.Warning : LogEventLevel.Debug;
        options.GetMessageTemplateProperties = (context, _, elapsed, status) =>
        [
            new LogEventProperty("RequestMethod", new ScalarValue(context.Request.Method)),
            new LogEventProperty("RequestPath", new ScalarValue(Masked(context.Request.Path))),
            new LogEventProperty("StatusCode", new ScalarValue(status)),
            new LogEventProperty("Elapsed", new ScalarValue(elapsed)),
        ];
    }

    /// <summary>An address without the code that it may carry.</summary>
    internal static string Masked(PathString path) => path.StartsWithSegments("/verify", StringComparison.OrdinalIgnoreCase, out var rest) && rest.HasValue ? "/verify/…" : path.Value ?? "/";
}
