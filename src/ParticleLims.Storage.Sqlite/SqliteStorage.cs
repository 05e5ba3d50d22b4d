using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Design;
using Microsoft.Extensions.DependencyInjection;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Storage.Sqlite;

/// <summary>Registers the laboratory's database in one SQLite file.</summary>
public static class SqliteStorage
{
    /// <summary>Adds the context factory and the engine for the file.</summary>
    public static IServiceCollection AddSqliteStorage(this IServiceCollection services, string databaseFile)
    {
        services.AddSingleton<IDatabaseEngine>(new SqliteEngine(databaseFile));
        return services.AddDbContextFactory<LaboratoryContext>(options => Configure(options, databaseFile));
    }

    /// <summary>How a file is opened; connections that are kept open are found again by it.</summary>
    public static string ConnectionTo(string databaseFile) => new SqliteConnectionStringBuilder { DataSource = databaseFile, ForeignKeys = true, DefaultTimeout = 5 }.ConnectionString;

    /// <summary>Options for one file.</summary>
    public static DbContextOptionsBuilder Configure(DbContextOptionsBuilder options, string databaseFile)
    {
        ArgumentNullException.ThrowIfNull(options);
        return options.UseSqlite(ConnectionTo(databaseFile), sqlite => sqlite.MigrationsAssembly(typeof(SqliteStorage).Assembly.GetName().Name)).AddInterceptors(new SqliteSettings());
    }
}

/// <summary>For the migration tool.</summary>
internal sealed class SqliteDesign : IDesignTimeDbContextFactory<LaboratoryContext>
{
    public LaboratoryContext CreateDbContext(string[] args) =>
        new((DbContextOptions<LaboratoryContext>)SqliteStorage.Configure(new DbContextOptionsBuilder<LaboratoryContext>(), "design.db").Options);
}
