using System.Globalization;

namespace ParticleLims.TestLaboratory.Databases;

/// <summary>Where the installed server programs are, and as whom they run: PostgreSQL refuses to run as root.</summary>
internal sealed record PostgresBinaries(string Folder, string? RunAs)
{
    private const string ServersOfDebian = "/usr/lib/postgresql";
    private const string Account = "postgres";

    public static PostgresBinaries Find()
    {
        if (OperatingSystem.IsWindows())
        {
            throw new ServerUnavailableException("a private server is started on Linux and macOS only");
        }

        var folder = Candidates().FirstOrDefault(place => File.Exists(Path.Combine(place, "initdb")) && File.Exists(Path.Combine(place, "pg_ctl")))
            ?? throw new ServerUnavailableException("no PostgreSQL server is installed (Debian: apt-get install postgresql)");
        if (!Environment.IsPrivilegedProcess)
        {
            return new PostgresBinaries(folder, null);
        }

        return Command.Succeeds("id", "-u", Account)
            ? new PostgresBinaries(folder, Account)
            : throw new ServerUnavailableException($"root cannot run PostgreSQL and there is no account \"{Account}\" to run it as");
    }

    /// <summary>Runs a program or a shell as the account that owns the server.</summary>
    public Command AsOwner(string program, params string[] arguments) =>
        RunAs is null ? new Command(program, arguments) : new Command("runuser", ["-u", RunAs, "--", program, .. arguments]);

    private static IEnumerable<string> Candidates()
    {
        if (Directory.Exists(ServersOfDebian))
        {
            foreach (var version in Directory.GetDirectories(ServersOfDebian).OrderByDescending(Number))
            {
                yield return Path.Combine(version, "bin");
            }
        }

        foreach (var place in (Environment.GetEnvironmentVariable("PATH") ?? string.Empty).Split(Path.PathSeparator, StringSplitOptions.RemoveEmptyEntries))
        {
            yield return place;
        }
    }

    private static double Number(string folder) => double.TryParse(Path.GetFileName(folder), NumberStyles.Float, CultureInfo.InvariantCulture, out var number) ? number : 0;
}
