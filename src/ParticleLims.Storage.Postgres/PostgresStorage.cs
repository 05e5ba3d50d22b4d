using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Design;
using Microsoft.Extensions.DependencyInjection;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Storage.Postgres;

/// <summary>Registers the laboratory's database on a PostgreSQL server.</summary>
public static class PostgresStorage
{
    /// <summary>Adds the context factory and the engine.</summary>
    public static IServiceCollection AddPostgresStorage(this IServiceCollection services, string connectionString)
    {
        services.AddSingleton<IDatabaseEngine>(new PostgresEngine(connectionString));
        return services.AddDbContextFactory<LaboratoryContext>(options => Configure(options, connectionString));
    }

    /// <summary>Options for one database.</summary>
    public static DbContextOptionsBuilder Configure(DbContextOptionsBuilder options, string connectionString)
    {
        ArgumentNullException.ThrowIfNull(options);
        return options.UseNpgsql(connectionString, postgres => postgres.MigrationsAssembly(typeof(PostgresStorage).Assembly.GetName().Name))
            .AddInterceptors(UnreadableTexts.Refused);
    }
}

/// <summary>For the migration tool.</summary>
internal sealed class PostgresDesign : IDesignTimeDbContextFactory<LaboratoryContext>
{
    public LaboratoryContext CreateDbContext(string[] args) =>
        new((DbContextOptions<LaboratoryContext>)PostgresStorage.Configure(new DbContextOptionsBuilder<LaboratoryContext>(), "Host=localhost;Database=design").Options);
}
