using Microsoft.Extensions.DependencyInjection;
using ParticleLims.Laboratory;
using ParticleLims.Laboratory.Balances;
using ParticleLims.Laboratory.Certificates;
using ParticleLims.Laboratory.Storage;
using ParticleLims.Storage.Sqlite;
using ParticleLims.TestLaboratory;

namespace ParticleLims.PowerCuts;

/// <summary>The laboratory's services over a database file, with the program's own settings of durability.</summary>
internal static class CutServices
{
    public static async Task<ServiceProvider> OpenAsync(string folder)
    {
        var services = new ServiceCollection().AddSingleton<ICertificateDrawing, PlainDrawing>().AddSingleton<IReadingFormatCheck, PlainFormatCheck>().AddLaboratory()
            .AddSqliteStorage(Path.Combine(folder, "laboratory.db")).BuildServiceProvider();
        await services.GetRequiredService<DatabaseOpening>().OpenAsync(Path.Combine(folder, "backups"), CancellationToken.None);
        return services;
    }
}
