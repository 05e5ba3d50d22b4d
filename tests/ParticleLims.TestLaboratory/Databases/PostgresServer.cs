using System.Globalization;
using Npgsql;

namespace ParticleLims.TestLaboratory.Databases;

/// <summary>
/// The PostgreSQL server of this test process: a container where a Docker engine answers, else a private server from the installed
/// binaries. It starts with the first database asked for and ends with the process.
/// </summary>
public static class PostgresServer
{
    private static readonly Lazy<Task<StartedServer>> Started = new(StartOnceAsync);
    private static int databases;

    /// <summary>Why there is no server, in words; null before <see cref="StartAsync"/> has ended and where there is one.</summary>
    public static string? Unavailable => Started is { IsValueCreated: true, Value: { IsCompletedSuccessfully: true } start } ? start.Result.Unavailable : null;

    /// <summary>Starts the server unless that was done before. Does not fail where none can be: <see cref="Unavailable"/> then says why.</summary>
    public static async Task StartAsync() => await Started.Value;

    /// <summary>Makes a new database and returns its connection string: an empty one, or a copy of one to which nobody is connected. Skips the calling test where no server can be.</summary>
    public static async Task<string> CreateDatabaseAsync(string? copyOf = null)
    {
        var server = await ServerAsync();
        var name = "test_" + Interlocked.Increment(ref databases).ToString(CultureInfo.InvariantCulture);
        var template = copyOf is null ? "template0" : new NpgsqlConnectionStringBuilder(copyOf).Database;

        // The files are copied as they are; the usual way writes each block through the log, which a server without fsync gains nothing by.
        await AdministerAsync(server, $"CREATE DATABASE {name} TEMPLATE {template} STRATEGY FILE_COPY");
        return server.ConnectionString(name);
    }

    /// <summary>Removes a database that was made here, and whoever is still connected to it.</summary>
    public static async Task DropDatabaseAsync(string connectionString)
    {
        await using (var pooled = new NpgsqlConnection(connectionString))
        {
            NpgsqlConnection.ClearPool(pooled);
        }

        await AdministerAsync(await ServerAsync(), $"DROP DATABASE {new NpgsqlConnectionStringBuilder(connectionString).Database} WITH (FORCE)");
    }

    private static async Task<IPostgresServer> ServerAsync()
    {
        var started = await Started.Value;
        return started.Server ?? throw new SkippedTestException($"no PostgreSQL: {started.Unavailable}");
    }

    private static async Task AdministerAsync(IPostgresServer server, string statement)
    {
        await using var administration = new NpgsqlConnection(server.ConnectionString("postgres"));
        await administration.OpenAsync();
        await using var command = administration.CreateCommand();
        command.CommandText = statement;
        await command.ExecuteNonQueryAsync();
    }

    private static async Task<StartedServer> StartOnceAsync()
    {
        var reasons = new List<string>();
        foreach (var start in new Func<Task<IPostgresServer>>[] { ContainerPostgres.StartAsync, PrivatePostgres.StartAsync })
        {
            try
            {
                var server = await start();
                AppDomain.CurrentDomain.ProcessExit += (_, _) => server.Dispose();
                return new StartedServer(server, null);
            }
            catch (ServerUnavailableException reason)
            {
                reasons.Add(reason.Message);
            }
        }

        return new StartedServer(null, string.Join("; ", reasons));
    }

    private sealed record StartedServer(IPostgresServer? Server, string? Unavailable);
}
