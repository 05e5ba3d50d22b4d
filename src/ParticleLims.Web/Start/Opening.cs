using ParticleLims.Instruments.Readings;
using ParticleLims.Laboratory.Demonstration;
using ParticleLims.Laboratory.Settings;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Web.Start;

/// <summary>Opens the laboratory before the first request: database, set-up link or demonstration.</summary>
public sealed class Opening(StartOptions options, DataFolder folder, DatabaseOpening database, LaboratorySetUp setUp, SettingsKeeping settings, DemonstrationLaboratory demonstration, SealAtStart seal)
{
    // Enough to look back at, and quickly made.
    private const int PracticeDays = 60;

    public async Task OpenAsync(WebApplication application, CancellationToken cancellation)
    {
        folder.Take();
        if (options.Demonstration && options.DatabaseConnection is null && !File.Exists(options.DatabaseFile))
        {
            demonstration.GetReady();
        }

        try
        {
            await database.OpenAsync(options.BackupFolder, cancellation);
        }
        catch (InvalidOperationException refusal) when (refusal.InnerException is not System.Data.Common.DbException)
        {
            throw new StartRefusedException(refusal.Message);
        }

        // The first key is made before the first certificate, in the name that the laboratory then has.
        string? missing = null;
        if (await settings.FindAsync(cancellation) is { } laboratory)
        {
            missing = await seal.LookAsync(laboratory.Name, cancellation);
        }

        var words = options.Demonstration ? await MakeDemonstrationAsync(application, cancellation) : await FirstWordsAsync(cancellation);
        folder.MarkRunning();
        application.Lifetime.ApplicationStarted.Register(() => Console.Out.WriteLine(string.Join(Environment.NewLine, new[] { words(application.Urls.First()), missing }.OfType<string>())));
    }

    /// <summary>What is said when it answers, given the address.</summary>
    private async Task<Func<string, string>> FirstWordsAsync(CancellationToken cancellation)
    {
        if (await setUp.IsDoneAsync(cancellation))
        {
            return address => $"The laboratory is open at {address}";
        }

        var secret = await setUp.MakeLinkAsync(cancellation);
        return address => $"This laboratory is empty. Set it up within {LaboratorySetUp.LinkLasts.TotalMinutes:0} minutes at {address}/set-up?link={secret}";
    }

    private async Task<Func<string, string>> MakeDemonstrationAsync(WebApplication application, CancellationToken cancellation)
    {
        var balance = new DemonstrationBalance("127.0.0.1", 4417, "0417", PlainLine.FormatWithChecksum.Name, (mass, decimals) => PlainLine.Write(mass, decimals, stable: true, "0417", checksum: true));
        var wanted = new DemonstrationOptions { PublicAddress = AddressOf(application.Configuration["urls"]), BenchBalance = balance, AccessFile = options.AccessFile };
        await demonstration.OpenAsync(options.Practice ? wanted with { Days = PracticeDays } : wanted, new MonthsTold(options.Practice ? "practice" : "demonstration"), cancellation);
        if (await settings.FindAsync(cancellation) is not { Demonstration: true })
        {
            throw new StartRefusedException("This database holds a real laboratory. The demonstration and the practice laboratory never open one: give them a database of their own.");
        }

        return address => $"The {(options.Practice ? "practice" : "demonstration")} laboratory is open at {address}. Who may sign on stands in {options.AccessFile}";
    }

    /// <summary>An address that a browser on this machine can follow.</summary>
    private static string AddressOf(string? urls)
    {
        var first = (urls ?? string.Empty).Split(';')[0].Replace("//*", "//localhost", StringComparison.Ordinal).Replace("//+", "//localhost", StringComparison.Ordinal).Replace("//0.0.0.0", "//localhost", StringComparison.Ordinal).Replace("//[::]", "//localhost", StringComparison.Ordinal);
        return Uri.TryCreate(first, UriKind.Absolute, out var address) && address.Port != 0 ? address.GetLeftPart(UriPartial.Authority) : "http://localhost:5000";
    }

    /// <summary>Tells how far it is, in order: the console is written while the history is made.</summary>
    private sealed class MonthsTold(string which) : IProgress<string>
    {
        public void Report(string value) => Console.Out.WriteLine($"Making the {which} laboratory: {value}");
    }
}
