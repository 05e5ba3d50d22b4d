using ParticleLims.Instruments.Readings;
using ParticleLims.Laboratory.Demonstration;
using ParticleLims.Laboratory.Settings;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Web.Start;

/// <summary>Opens the laboratory before the first request: database, set-up link or demonstration.</summary>
public sealed class Opening(StartOptions options, DataFolder folder, DatabaseOpening database, LaboratorySetUp setUp, DemonstrationLaboratory demonstration)
{
    public async Task OpenAsync(WebApplication application, CancellationToken cancellation)
    {
        folder.Take();
        try
        {
            await database.OpenAsync(options.BackupFolder, cancellation);
        }
        catch (InvalidOperationException refusal) when (refusal.InnerException is not System.Data.Common.DbException)
        {
            throw new StartRefusedException(refusal.Message);
        }

        if (options.Demonstration)
        {
            await MakeDemonstrationAsync(application, cancellation);
        }
        else if (!await setUp.IsDoneAsync(cancellation))
        {
            var secret = await setUp.MakeLinkAsync(cancellation);
            application.Lifetime.ApplicationStarted.Register(() =>
                Console.Out.WriteLine($"This laboratory is empty. Set it up within {LaboratorySetUp.LinkLasts.TotalMinutes:0} minutes at {application.Urls.First()}/set-up?link={secret}"));
        }
    }

    private async Task MakeDemonstrationAsync(WebApplication application, CancellationToken cancellation)
    {
        var file = Path.Combine(options.DataFolder, DemonstrationAccessFile.FileName);
        var balance = new DemonstrationBalance("127.0.0.1", 4417, "0417", PlainLine.FormatWithChecksum.Name, (mass, decimals) => PlainLine.Write(mass, decimals, stable: true, "0417", checksum: true));
        var wanted = new DemonstrationOptions { PublicAddress = AddressOf(application.Configuration["urls"]), BenchBalance = balance, AccessFile = file };
        if (await demonstration.OpenAsync(wanted, new MonthsTold(), cancellation) is not null)
        {
            await Console.Out.WriteLineAsync($"The demonstration laboratory is made. Who may sign on stands in {file}");
        }
    }

    /// <summary>An address that a browser on this machine can follow.</summary>
    private static string AddressOf(string? urls)
    {
        var first = (urls ?? string.Empty).Split(';')[0].Replace("//*", "//localhost", StringComparison.Ordinal).Replace("//+", "//localhost", StringComparison.Ordinal).Replace("//0.0.0.0", "//localhost", StringComparison.Ordinal).Replace("//[::]", "//localhost", StringComparison.Ordinal);
        return Uri.TryCreate(first, UriKind.Absolute, out var address) && address.Port != 0 ? address.GetLeftPart(UriPartial.Authority) : "http://localhost:5000";
    }

    /// <summary>Tells how far it is, in order: the console is written while the history is made.</summary>
    private sealed class MonthsTold : IProgress<string>
    {
        public void Report(string value) => Console.Out.WriteLine($"Making the demonstration laboratory: {value}");
    }
}
