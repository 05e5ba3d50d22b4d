using System.Diagnostics;
using Npgsql;
using ParticleLims.TestLaboratory.Databases;
using Shouldly;
using Xunit;

namespace ParticleLims.Storage.Postgres.Tests.Databases;

public sealed class PostgresServerTests
{
    [Fact]
    public async Task A_new_database_is_reachable_and_empty()
    {
        var database = await PostgresServer.CreateDatabaseAsync();
        (await AskAsync<long>(database, "SELECT count(*) FROM pg_tables WHERE schemaname = 'public'")).ShouldBe(0);
    }

    [Fact]
    public async Task Everyone_who_asks_at_once_gets_a_database_of_their_own()
    {
        var databases = await Task.WhenAll(Enumerable.Range(0, 8).Select(_ => PostgresServer.CreateDatabaseAsync()));
        foreach (var database in databases)
        {
            await AskAsync<int>(database, "CREATE TABLE mine (number int); INSERT INTO mine VALUES (1); SELECT count(*)::int FROM mine");
        }

        databases.Distinct().Count().ShouldBe(8);
        PostgresServer.Unavailable.ShouldBeNull();
    }

    [Fact]
    public async Task A_test_process_that_ends_leaves_neither_server_nor_data()
    {
        var folders = Path.GetTempPath();
        using var server = StartOrSkip(folders);
        ClaimedFolder.Of(Environment.ProcessId, folders).ShouldContain(server.Folder.Path, "a running server is found by its process");

        var method = $"{typeof(PostgresServerTests).FullName}.{nameof(A_new_database_is_reachable_and_empty)}";
        using var other = Process.Start(new ProcessStartInfo("dotnet", [typeof(PostgresServerTests).Assembly.Location, "-method", method, "-noLogo", "-noColor"])
        {
            UseShellExecute = false,
            RedirectStandardOutput = true,
        })!;
        var output = await other.StandardOutput.ReadToEndAsync(TestContext.Current.CancellationToken);
        await other.WaitForExitAsync(TestContext.Current.CancellationToken);

        other.ExitCode.ShouldBe(0, output);
        output.ShouldContain("Total: 1,", Case.Sensitive, output);
        ClaimedFolder.Of(other.Id, folders).ShouldBeEmpty();
        ProcessesThatName($"particlelims-postgres-{other.Id}-").ShouldBeEmpty();
    }

    [Fact]
    public void The_server_of_a_killed_test_process_is_ended_by_the_next_one()
    {
        using var root = new OpenFolder();
        var server = StartOrSkip(root.Path);
        PrivatePostgres.SweepAbandoned(root.Path);
        ProcessesThatName(server.Folder.Path).ShouldNotBeEmpty("a server whose process lives is left alone");

        server.Folder.Dispose(); // what the operating system does when it kills the process
        PrivatePostgres.SweepAbandoned(root.Path);

        ProcessesThatName(server.Folder.Path).ShouldBeEmpty();
        Directory.GetFileSystemEntries(root.Path).ShouldBeEmpty();
    }

    private static PrivatePostgres StartOrSkip(string root)
    {
        try
        {
            return PrivatePostgres.Start(root);
        }
        catch (ServerUnavailableException reason)
        {
            throw new SkippedTestException(reason.Message, reason);
        }
    }

    private static string[] ProcessesThatName(string text) =>
        [.. Directory.GetDirectories("/proc").Where(folder => char.IsAsciiDigit(Path.GetFileName(folder)[0])).Select(CommandLine).Where(line => line.Contains(text, StringComparison.Ordinal))];

    private static string CommandLine(string process)
    {
        try
        {
            return File.ReadAllText(Path.Combine(process, "cmdline"));
        }
        catch (IOException)
        {
            return string.Empty; // it has ended meanwhile
        }
    }

    private static async Task<T> AskAsync<T>(string database, string question)
    {
        await using var connection = new NpgsqlConnection(database);
        await connection.OpenAsync(TestContext.Current.CancellationToken);
        await using var command = new NpgsqlCommand(question, connection);
        return (T)(await command.ExecuteScalarAsync(TestContext.Current.CancellationToken))!;
    }

    /// <summary>A temporary folder in which the server's account may work too.</summary>
    private sealed class OpenFolder : IDisposable
    {
        private readonly DirectoryInfo folder = Directory.CreateTempSubdirectory("particlelims-sweep-");

        public OpenFolder()
        {
            if (!OperatingSystem.IsWindows())
            {
                folder.UnixFileMode |= UnixFileMode.OtherRead | UnixFileMode.OtherWrite | UnixFileMode.OtherExecute;
            }
        }

        public string Path => folder.FullName;

        public void Dispose() => folder.Delete(recursive: true);
    }
}
