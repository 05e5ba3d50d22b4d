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

    /// <summary>Makes a new, empty database and returns its connection string. Skips the calling test where no server can be.</summary>
    public static async Task<string> CreateDatabaseAsync()
    {
        var started = await Started.Value;
        if (started.Server is not { } server)
        {
            throw new SkippedTestException($"no PostgreSQL: {started.Unavailable}");
        }

        var name = "test_" + Interlocked.Increment(ref databases).ToString(CultureInfo.InvariantCulture);
        await using var administration = new NpgsqlConnection(server.ConnectionString("postgres"));
        await administration.OpenAsync();
        await using var command = administration.CreateCommand();
        command.CommandText = $"CREATE DATABASE {name} TEMPLATE template0";
        await command.ExecuteNonQueryAsync();
        return server.ConnectionString(name);
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
