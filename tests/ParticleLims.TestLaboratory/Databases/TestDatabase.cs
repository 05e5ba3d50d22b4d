using Microsoft.Extensions.DependencyInjection;
using Npgsql;
using ParticleLims.Laboratory.Storage;
using ParticleLims.Storage.Postgres;
using ParticleLims.Storage.Sqlite;

namespace ParticleLims.TestLaboratory.Databases;

/// <summary>One database for one test, removed when disposed.</summary>
public sealed class TestDatabase : IAsyncDisposable
{
    private readonly SqliteFile? file;
    private readonly string? connection;
    private readonly string mark = Path.GetRandomFileName();

    private TestDatabase(SqliteFile? file, string? connection) => (this.file, this.connection) = (file, connection);

    /// <summary>Which of the two it is.</summary>
    public DatabaseKind Kind => file is null ? DatabaseKind.Postgres : DatabaseKind.Sqlite;

    /// <summary>SQLite: the path of the file. PostgreSQL: the connection string.</summary>
    public string Place => file?.Path ?? connection!;

    /// <summary>Where its backups go; nobody makes this folder unless a backup is made.</summary>
    public string BackupFolder => Path.Combine(Path.GetTempPath(), "particlelims-backups-" + mark);

    /// <summary>Makes a place for a new, empty database.</summary>
    public static async Task<TestDatabase> CreateAsync(DatabaseKind kind) =>
        kind == DatabaseKind.Sqlite ? new TestDatabase(new SqliteFile(), null) : new TestDatabase(null, await PostgresServer.CreateDatabaseAsync());

    /// <summary>A copy of this one. Nobody may be connected to it meanwhile: call <see cref="LetGoAsync"/> first.</summary>
    public async Task<TestDatabase> CopyAsync()
    {
        if (file is null)
        {
            return new TestDatabase(null, await PostgresServer.CreateDatabaseAsync(connection));
        }

        var copy = new SqliteFile();
        File.Copy(file.Path, copy.Path);
        return new TestDatabase(copy, null);
    }

    /// <summary>Closes the connections that this process keeps open to it, so that it can be copied.</summary>
    public async Task LetGoAsync()
    {
        if (file is null)
        {
            await using var pooled = new NpgsqlConnection(connection);
            NpgsqlConnection.ClearPool(pooled);
        }
        else
        {
            SqlitePools.LetGo(file.Path); // the last connection to be closed moves the log into the file
        }
    }

    /// <summary>Registers it as the laboratory's storage. The throw-away server runs without fsync, which the program would refuse.</summary>
    public void AddTo(IServiceCollection services)
    {
        if (file is not null)
        {
            services.AddSqliteStorage(file.Path);
            return;
        }

        services.AddPostgresStorage(connection!).AddSingleton<IDatabaseEngine>(new PostgresEngine(connection!) { AllowUnsafeSettings = true });
    }

    /// <summary>For one that is copied as long as the process lives. The server ends with the process and takes its databases along, so only a file has to be removed.</summary>
    public void RemoveWithProcess() => AppDomain.CurrentDomain.ProcessExit += (_, _) => file?.Dispose();

    /// <inheritdoc />
    public async ValueTask DisposeAsync()
    {
        file?.Dispose();
        if (Directory.Exists(BackupFolder))
        {
            Directory.Delete(BackupFolder, recursive: true);
        }

        if (connection is not null)
        {
            await PostgresServer.DropDatabaseAsync(connection);
        }
    }
}
