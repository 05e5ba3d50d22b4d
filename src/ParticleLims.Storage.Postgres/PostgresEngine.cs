using System.Diagnostics;
using System.Globalization;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Storage;
using Npgsql;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Storage.Postgres;

/// <summary>PostgreSQL: writers wait for one another at an advisory lock that ends with the transaction, so the chain has one order.</summary>
public sealed class PostgresEngine(string connectionString) : IDatabaseEngine
{
    private const long WriterLock = 0x6C696D73;
    private const long MigrationLock = 0x6C696D74;

    /// <inheritdoc />
    public string Name => "PostgreSQL";

    /// <inheritdoc />
    public async Task<IDbContextTransaction> BeginWritingAsync(LaboratoryContext data, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(data);
        var transaction = await data.Database.BeginTransactionAsync(cancellation);
        await data.Database.ExecuteSqlAsync($"SELECT pg_advisory_xact_lock({WriterLock})", cancellation);
        return transaction;
    }

    /// <inheritdoc />
    public Task<IDbContextTransaction> BeginReadingAsync(LaboratoryContext data, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(data);
        return data.Database.BeginTransactionAsync(System.Data.IsolationLevel.RepeatableRead, cancellation);
    }

    /// <inheritdoc />
    public DatabaseTrouble? TroubleOf(Exception fault)
    {
        for (var inner = fault; inner is not null; inner = inner.InnerException)
        {
            switch (inner)
            {
                // SQLSTATE: postgresql.org/docs/current/errcodes-appendix.html.
                case PostgresException { SqlState: var state }:
                    return state switch
                    {
                        PostgresErrorCodes.DiskFull => DatabaseTrouble.DiskFull,
                        PostgresErrorCodes.LockNotAvailable => DatabaseTrouble.Held,
                        PostgresErrorCodes.ReadOnlySqlTransaction => DatabaseTrouble.ReadOnly,
                        PostgresErrorCodes.IoError or PostgresErrorCodes.TooManyConnections => DatabaseTrouble.Unreachable,
                        ['5', '7', 'P', '0', '1' or '2' or '3'] or ['0', '8', ..] => DatabaseTrouble.Unreachable,
                        _ => null,
                    };
                case NpgsqlException { InnerException: System.Net.Sockets.SocketException or IOException or TimeoutException }:
                    return DatabaseTrouble.Unreachable;
            }
        }

        return null;
    }

    /// <inheritdoc />
    public async Task CheckSettingsAsync(LaboratoryContext data, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(data);
        foreach (var setting in (string[])["fsync", "full_page_writes", "synchronous_commit"])
        {
            var found = await data.Database.SqlQuery<string>($"SELECT current_setting({setting}) AS \"Value\"").SingleAsync(cancellation);
            if (found is "off" or "local" && !AllowUnsafeSettings)
            {
                throw new InvalidOperationException($"PostgreSQL's {setting} is {found}: an acknowledged weighing could be lost. The program does not start so.");
            }
        }
    }

    /// <summary>For tests on a throw-away server, which runs without fsync.</summary>
    public bool AllowUnsafeSettings { get; init; }

    /// <inheritdoc />
    public async Task<string> BackUpAsync(LaboratoryContext data, string folder, DateTimeOffset at, CancellationToken cancellation)
    {
        Directory.CreateDirectory(folder);
        var path = Path.Combine(folder, string.Create(CultureInfo.InvariantCulture, $"before-migration-{at.UtcDateTime:yyyyMMdd-HHmmss}.dump"));
        await RunAsync("pg_dump", ["--format=custom", "--file", path], _ => { }, cancellation);
        var (head, found) = (await HeadAsync(data, cancellation), false);
        await RunAsync("pg_restore", ["--data-only", "--table=record_events", "--file=-", path], line => found |= line.Contains(head, StringComparison.Ordinal), cancellation);
        return found || head == RecordChain.Origin
            ? path
            : throw new InvalidOperationException($"The backup {path} does not end with the same event of the record. The database was not migrated.");
    }

    /// <inheritdoc />
    public async Task<IAsyncDisposable> LockForMigrationAsync(LaboratoryContext data, CancellationToken cancellation)
    {
        // The lock lives as long as its connection: one from the pool would keep it after it was given back.
        var connection = new NpgsqlConnection(new NpgsqlConnectionStringBuilder(connectionString) { Pooling = false }.ConnectionString);
        await connection.OpenAsync(cancellation);
        await using var command = new NpgsqlCommand("SELECT pg_try_advisory_lock($1)", connection) { Parameters = { new() { Value = MigrationLock } } };
        if (await command.ExecuteScalarAsync(cancellation) is true)
        {
            return connection;
        }

        await connection.DisposeAsync();
        throw new InvalidOperationException("Another program is migrating this database. Start again when it is done.");
    }

    private static async Task<string> HeadAsync(LaboratoryContext data, CancellationToken cancellation)
    {
        ArgumentNullException.ThrowIfNull(data);
        return await data.Events.OrderByDescending(one => one.Sequence).Select(one => one.Hash).FirstOrDefaultAsync(cancellation) ?? RecordChain.Origin;
    }

    private async Task RunAsync(string program, string[] arguments, Action<string> read, CancellationToken cancellation)
    {
        var settings = new NpgsqlConnectionStringBuilder(connectionString);
        var start = new ProcessStartInfo(program, arguments) { RedirectStandardOutput = true, RedirectStandardError = true, UseShellExecute = false };
        start.Environment["PGHOST"] = settings.Host;
        start.Environment["PGPORT"] = settings.Port.ToString(CultureInfo.InvariantCulture);
        start.Environment["PGUSER"] = settings.Username;
        start.Environment["PGPASSWORD"] = settings.Password;
        start.Environment["PGDATABASE"] = settings.Database;
        using var process = Start(start);
        var errors = process.StandardError.ReadToEndAsync(cancellation);
        while (await process.StandardOutput.ReadLineAsync(cancellation) is { } line)
        {
            read(line);
        }

        await process.WaitForExitAsync(cancellation);
        if (process.ExitCode != 0)
        {
            throw new InvalidOperationException($"{program} failed: {(await errors).Trim()} The database was not migrated.");
        }
    }

    private static Process Start(ProcessStartInfo start)
    {
        try
        {
            return Process.Start(start)!;
        }
        catch (System.ComponentModel.Win32Exception fault)
        {
            throw new InvalidOperationException($"{start.FileName} is not installed, so no backup could be made before migrating. Install the PostgreSQL client programs on this machine.", fault);
        }
    }
}
