using ParticleLims.CertificatePdf.Sealing;
using ParticleLims.Laboratory.Settings;
using ParticleLims.Web.Shell;

namespace ParticleLims.Web.Start;

/// <summary>Whether the program lives, and whether it can work: for whoever watches it, without anything about the laboratory.</summary>
internal static class Health
{
    public static void MapHealth(this IEndpointRouteBuilder routes)
    {
        routes.MapGet("/health/live", () => Results.Text("live")).AllowAnonymous();
        routes.MapGet("/health/ready", ReadyAsync).AllowAnonymous();
    }

    private static async Task<IResult> ReadyAsync(LaboratorySetUp setUp, StartOptions options, SealKeys keys, ILogger<Opening> log, CancellationToken cancellation)
    {
        try
        {
            var words = await setUp.IsDoneAsync(cancellation) ? (keys.IsGone ? "ready, but the key of the seal is gone: no certificate is issued" : "ready") : "ready, waiting to be set up";
            return IsFull(options.DataFolder) ? Results.Text("not ready: the disk is nearly full", statusCode: StatusCodes.Status503ServiceUnavailable) : Results.Text(words);
        }
        catch (Exception fault) when (fault is Laboratory.Record.DatabaseTroubledException or System.Data.Common.DbException or InvalidOperationException or TimeoutException)
        {
            FaultLog.NotReady(log, fault);
            return Results.Text("not ready: the database does not answer", statusCode: StatusCodes.Status503ServiceUnavailable);
        }
    }

    // Below this a run could not be kept safely: 50 MB.
    private static bool IsFull(string folder) => new DriveInfo(folder).AvailableFreeSpace < 50_000_000;
}
