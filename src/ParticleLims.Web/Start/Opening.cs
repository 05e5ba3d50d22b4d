using ParticleLims.Laboratory.Settings;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Web.Start;

/// <summary>Opens the laboratory before the first request: database, set-up link or demonstration.</summary>
public sealed class Opening(StartOptions options, DataFolder folder, DatabaseOpening database, LaboratorySetUp setUp)
{
    public async Task OpenAsync(WebApplication application, CancellationToken cancellation)
    {
        folder.Take();
        try
        {
            await database.OpenAsync(options.BackupFolder, cancellation);
        }
        catch (InvalidOperationException refusal)
        {
            throw new StartRefusedException(refusal.Message);
        }

        if (!await setUp.IsDoneAsync(cancellation))
        {
            var secret = await setUp.MakeLinkAsync(cancellation);
            application.Lifetime.ApplicationStarted.Register(() =>
                Console.Out.WriteLine($"This laboratory is empty. Set it up within {LaboratorySetUp.LinkLasts.TotalMinutes:0} minutes at {application.Urls.First()}/set-up?link={secret}"));
        }
    }
}
