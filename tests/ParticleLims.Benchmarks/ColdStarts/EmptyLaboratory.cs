using Microsoft.Data.Sqlite;
using Microsoft.Extensions.DependencyInjection;
using ParticleLims.CertificatePdf;
using ParticleLims.CertificatePdf.Sealing;
using ParticleLims.Laboratory;
using ParticleLims.Laboratory.Certificates;
using ParticleLims.Laboratory.Settings;
using ParticleLims.Laboratory.Storage;
using ParticleLims.Storage.Sqlite;
using ParticleLims.TestLaboratory.SmallLaboratories;

namespace ParticleLims.Benchmarks.ColdStarts;

/// <summary>A laboratory on disk that is set up and has no work yet.</summary>
internal static class EmptyLaboratory
{
    /// <summary>Makes it in a data folder, as the program finds it at its next start.</summary>
    public static async Task SetUpAsync(string dataFolder)
    {
        await using (var services = new ServiceCollection().AddSingleton(new SealKeys(null, TimeProvider.System)).AddSingleton<ICertificateDrawing, CertificatePdfWriter>().AddLaboratory()
            .AddSqliteStorage(Path.Combine(dataFolder, "laboratory.db")).BuildServiceProvider())
        {
            await services.GetRequiredService<DatabaseOpening>().OpenAsync(Path.Combine(dataFolder, "backups"), CancellationToken.None);
            await SmallLaboratory.SetUpAsync(services);
            if (!await services.GetRequiredService<LaboratorySetUp>().IsDoneAsync(CancellationToken.None))
            {
                throw new InvalidOperationException("The laboratory was not set up.");
            }
        }

        SqliteConnection.ClearAllPools();
    }
}
