using System.Globalization;
using Microsoft.Data.Sqlite;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Storage;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Storage.Sqlite;

/// <summary>SQLite in one file: WAL, synchronous=FULL, one writer at a time by BEGIN IMMEDIATE.</summary>
public sealed class SqliteEngine(string databaseFile) : IDatabaseEngine
{
    /// <inheritdoc />
    public string Name => "SQLite";

    /// <inheritdoc />
    public Task<IDbContextTransaction> BeginWritingAsync(LaboratoryContext data, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(data);

        // Microsoft.Data.Sqlite begins its transactions IMMEDIATE: the write lock is taken here, not at the first write.
        return data.Database.BeginTransactionAsync(cancellation);
    }

    /// <inheritdoc />
    public async Task<IDbContextTransaction> BeginReadingAsync(LaboratoryContext data, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(data);
        await data.Database.OpenConnectionAsync(cancellation);

        // Deferred: it takes no write lock, and sees the state of its first reading to its end (WAL).
        return (await data.Database.UseTransactionAsync(((SqliteConnection)data.Database.GetDbConnection()).BeginTransaction(deferred: true), cancellation))!;
    }

    /// <inheritdoc />
    public DatabaseTrouble? TroubleOf(Exception fault)
    {
        for (var inner = fault; inner is not null; inner = inner.InnerException)
        {
            if (inner is SqliteException { SqliteErrorCode: var code })
            {
                // Result codes: sqlite.org/rescode.html.
                return code switch
                {
                    5 or 6 => DatabaseTrouble.Held,
                    8 => DatabaseTrouble.ReadOnly,
                    13 => DatabaseTrouble.DiskFull,
                    10 or 14 => DatabaseTrouble.Unreachable,
                    _ => null,
                };
            }
        }

        return null;
    }

    /// <inheritdoc />
    public async Task CheckSettingsAsync(LaboratoryContext data, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(data);
        await data.Database.OpenConnectionAsync(cancellation);
        try
        {
            var connection = (SqliteConnection)data.Database.GetDbConnection();
            Require("journal_mode", "wal", await PragmaAsync(connection, "journal_mode", cancellation));
            Require("synchronous", "2", await PragmaAsync(connection, "synchronous", cancellation));
            Require("foreign_keys", "1", await PragmaAsync(connection, "foreign_keys", cancellation));
            if (int.Parse(await PragmaAsync(connection, "busy_timeout", cancellation), CultureInfo.InvariantCulture) < 1000)
            {
                throw new InvalidOperationException("SQLite's busy_timeout is under one second: two terminals writing at once would fail.");
            }
        }
        finally
        {
            await data.Database.CloseConnectionAsync();
        }
    }

    /// <inheritdoc />
    public async Task<string> BackUpAsync(LaboratoryContext data, string folder, DateTimeOffset at, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(data);
        Directory.CreateDirectory(folder);
        var path = Path.Combine(folder, string.Create(CultureInfo.InvariantCulture, $"before-migration-{at.UtcDateTime:yyyyMMdd-HHmmss}.db"));
        await data.Database.ExecuteSqlAsync($"VACUUM INTO {path}", cancellation);
        await using var copy = new SqliteConnection(new SqliteConnectionStringBuilder { DataSource = path, Mode = SqliteOpenMode.ReadOnly, Pooling = false }.ConnectionString);
        await copy.OpenAsync(cancellation);
        if (await ScalarAsync(copy, "PRAGMA integrity_check", cancellation) is not "ok")
        {
            throw new InvalidOperationException($"The backup {path} fails its integrity check. The database was not migrated.");
        }

        if (await HasRecordAsync(copy, cancellation) && await HeadAsync(copy, cancellation) != await HeadAsync((SqliteConnection)data.Database.GetDbConnection(), cancellation))
        {
            throw new InvalidOperationException($"The backup {path} does not end with the same event of the record. The database was not migrated.");
        }

        await FlushAsync(path, cancellation);
        return path;
    }

    /// <inheritdoc />
    public async Task<IAsyncDisposable> LockForMigrationAsync(LaboratoryContext data, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(data);
        FileStream held;
        try
        {
            held = new FileStream(databaseFile + ".migrating", FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.None, 1, FileOptions.DeleteOnClose);
        }
        catch (IOException fault)
        {
            throw new InvalidOperationException("Another program is migrating this database. Start again when it is done.", fault);
        }

        // Under our own lock nobody migrates: a row here was left by a program that was killed, and would be waited for without end.
        if (await ExistsAsync(data, "__EFMigrationsLock", cancellation))
        {
            await data.Database.ExecuteSqlRawAsync("DELETE FROM \"__EFMigrationsLock\"", cancellation);
        }

        return held;
    }

    /// <summary>VACUUM INTO leaves the flushing to us (sqlite.org/lang_vacuum.html): a backup counts when it is on disk.</summary>
    private static async Task FlushAsync(string path, CancellationToken cancellation)
    {
        await using var file = new FileStream(path, FileMode.Open, FileAccess.ReadWrite);
        await file.FlushAsync(cancellation);
        file.Flush(flushToDisk: true);
    }

    private static async Task<bool> ExistsAsync(LaboratoryContext data, string table, CancellationToken cancellation) =>
        await data.Database.SqlQuery<int>($"SELECT COUNT(*) AS Value FROM sqlite_master WHERE type = 'table' AND name = {table}").SingleAsync(cancellation) > 0;

    private static async Task<bool> HasRecordAsync(SqliteConnection connection, CancellationToken cancellation) =>
        await ScalarAsync(connection, "SELECT COUNT(*) FROM sqlite_master WHERE type = 'table' AND name = 'record_events'", cancellation) is 1L;

    private static async Task<string> HeadAsync(SqliteConnection connection, CancellationToken cancellation)
    {
        if (connection.State != System.Data.ConnectionState.Open)
        {
            await connection.OpenAsync(cancellation);
        }

        return await ScalarAsync(connection, "SELECT hash FROM record_events ORDER BY sequence DESC LIMIT 1", cancellation) as string ?? RecordChain.Origin;
    }

    private static async Task<string> PragmaAsync(SqliteConnection connection, string name, CancellationToken cancellation) =>
        Convert.ToString(await ScalarAsync(connection, $"PRAGMA {name}", cancellation), CultureInfo.InvariantCulture) ?? string.Empty;

    private static async Task<object?> ScalarAsync(SqliteConnection connection, string sql, CancellationToken cancellation)
    {
        await using var command = connection.CreateCommand();
        command.CommandText = sql;
        return await command.ExecuteScalarAsync(cancellation);
    }

    private static void Require(string pragma, string wanted, string found)
    {
        if (!string.Equals(wanted, found, StringComparison.OrdinalIgnoreCase))
        {
            throw new InvalidOperationException($"SQLite's {pragma} is {found}, not {wanted}: an acknowledged weighing could be lost. The program does not start so.");
        }
    }
}
