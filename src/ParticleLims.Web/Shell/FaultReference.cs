using System.Security.Cryptography;
using Microsoft.AspNetCore.Diagnostics;

namespace ParticleLims.Web.Shell;

/// <summary>A number that stands both on the screen and in the log.</summary>
internal static class FaultReference
{
    public const string Key = "fault-reference";

    public static string Next() => "F-" + Convert.ToHexString(RandomNumberGenerator.GetBytes(4));
}

/// <summary>Writes a fault to the log under its number; the answer is the error page's.</summary>
internal sealed class FaultNoting(ILogger<FaultNoting> log) : IExceptionHandler
{
    public ValueTask<bool> TryHandleAsync(HttpContext httpContext, Exception exception, CancellationToken cancellationToken)
    {
        var reference = FaultReference.Next();
        httpContext.Items[FaultReference.Key] = reference;
        FaultLog.Fault(log, reference, httpContext.Request.Path, exception);
        return ValueTask.FromResult(false);
    }
}

/// <summary>What is logged, without queries: they may carry secrets.</summary>
internal static partial class FaultLog
{
    [LoggerMessage(Level = LogLevel.Error, Message = "Fault {Reference} at {Path}")]
    public static partial void Fault(ILogger log, string reference, string path, Exception exception);

    [LoggerMessage(Level = LogLevel.Error, Message = "Not ready: the database does not answer")]
    public static partial void NotReady(ILogger log, Exception exception);
}
