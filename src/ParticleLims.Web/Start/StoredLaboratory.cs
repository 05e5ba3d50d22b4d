using ParticleLims.Storage.Postgres;
using ParticleLims.Storage.Sqlite;

namespace ParticleLims.Web.Start;

/// <summary>The database of a laboratory that is there already, for what is done at the console.</summary>
internal static class StoredLaboratory
{
    /// <summary>Adds its storage.</summary>
    /// <exception cref="StartRefusedException">There is none where the options say.</exception>
    public static IServiceCollection AddStored(this IServiceCollection services, StartOptions options) =>
        options.DatabaseConnection is { } connection ? services.AddPostgresStorage(connection)
        : File.Exists(options.DatabaseFile) ? services.AddSqliteStorage(options.DatabaseFile)
        : throw new StartRefusedException($"There is no database {options.DatabaseFile}. Say with --data where it is.");
}
