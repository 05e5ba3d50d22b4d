using System.Globalization;
using System.Net;
using System.Net.Sockets;
using System.Security.Cryptography;
using Npgsql;

namespace ParticleLims.TestLaboratory.Databases;

/// <summary>
/// A PostgreSQL server of our own from the installed programs: a new folder, a free port of the loopback address, a password made for it.
/// </summary>
public sealed class PrivatePostgres : IPostgresServer
{
    private const int Attempts = 3; // another process may take the free port first

    // The output goes to the log: the server keeps what it was started with, and a reader of a pipe would wait for it to end.
    private const string Script = """
        set -e
        umask 077
        mkdir "$1"
        exec >"$1/log" 2>&1
        printf %s "$PGPASSWORD" >"$1/secret"
        "$2/initdb" -D "$1/data" -U particlelims --auth=scram-sha-256 --pwfile="$1/secret" --encoding=UTF8 --locale=C --no-sync
        "$2/pg_ctl" -D "$1/data" -l "$1/log" -w -t 60 -o "$3" start
        """;

    private readonly PostgresBinaries binaries;
    private readonly string password = Convert.ToHexStringLower(RandomNumberGenerator.GetBytes(16));
    private readonly int port = FreePort();

    private PrivatePostgres(PostgresBinaries binaries, ClaimedFolder folder) => (this.binaries, Folder) = (binaries, folder);

    /// <summary>Where its data are.</summary>
    public ClaimedFolder Folder { get; }

    /// <summary>Starts a server in a new folder under the given one.</summary>
    /// <exception cref="ServerUnavailableException">It did not start; nothing is left of it.</exception>
    public static PrivatePostgres Start(string root)
    {
        var server = new PrivatePostgres(PostgresBinaries.Find(), ClaimedFolder.Take(root));
        try
        {
            server.Start();
            return server;
        }
        catch
        {
            server.Dispose();
            throw;
        }
    }

    /// <summary>Ends the servers, and removes the folders, of test processes that were killed.</summary>
    public static void SweepAbandoned(string root)
    {
        foreach (var abandoned in ClaimedFolder.Abandoned(root))
        {
            new PrivatePostgres(PostgresBinaries.Find(), abandoned).Dispose();
        }
    }

    /// <inheritdoc />
    public string ConnectionString(string database) => new NpgsqlConnectionStringBuilder
    {
        Host = IPAddress.Loopback.ToString(), Port = port, Database = database, Username = "particlelims", Password = password, MaxPoolSize = 10,
    }.ConnectionString;

    /// <summary>Ends the server and removes its folder.</summary>
    public void Dispose()
    {
        if (File.Exists(Path.Combine(Folder.Path, "data", "postmaster.pid")))
        {
            binaries.AsOwner(Path.Combine(binaries.Folder, "pg_ctl"), "-D", Path.Combine(Folder.Path, "data"), "-m", "immediate", "-w", "stop").Run();
        }

        Folder.Remove();
    }

    internal static Task<IPostgresServer> StartAsync() => Task.Run<IPostgresServer>(() =>
    {
        var root = Path.GetTempPath();
        SweepAbandoned(root);
        for (var attempt = 1; ; attempt++)
        {
            try
            {
                return Start(root);
            }
            catch (ServerUnavailableException) when (attempt < Attempts)
            {
            }
        }
    });

    private void Start()
    {
        var settings = string.Join(' ', [.. ServerSettings.ForTests, "-c", "listen_addresses=127.0.0.1", "-c", "unix_socket_directories=''", "-p", port.ToString(CultureInfo.InvariantCulture)]);
        var (status, output) = binaries.AsOwner("/bin/sh", "-c", Script, "sh", Folder.Path, binaries.Folder, settings).Run(("PGPASSWORD", password));
        if (status != 0)
        {
            var log = Path.Combine(Folder.Path, "log");
            throw new ServerUnavailableException($"the private server did not start: {(File.Exists(log) ? File.ReadAllText(log) : output)}");
        }
    }

    private static int FreePort()
    {
        using var listener = new TcpListener(IPAddress.Loopback, 0);
        listener.Start();
        return ((IPEndPoint)listener.LocalEndpoint).Port;
    }
}
