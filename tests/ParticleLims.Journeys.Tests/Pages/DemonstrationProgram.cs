using ParticleLims.Laboratory.Demonstration;
using ParticleLims.TestLaboratory.Databases;

namespace ParticleLims.Journeys.Tests.Pages;

/// <summary>The program with the demonstration laboratory, in a folder that goes away afterwards.</summary>
public sealed class DemonstrationProgram : IAsyncDisposable
{
    // A year of history is made at the first start; a busy machine with two processors took 100 s.
    private const int SecondsForAYear = 400;
    private readonly DirectoryInfo? ownFolder;
    private readonly string folder;
    private readonly Dictionary<string, string> access = new(StringComparer.Ordinal);

    private DemonstrationProgram(string? existing)
    {
        ownFolder = existing is null ? Directory.CreateTempSubdirectory("particlelims-demonstration-") : null;
        folder = existing ?? ownFolder!.FullName;
        Program = new RunningProgram(folder, "--demo", "--balance-port", "0", "--balance-control-port", "0");
    }

    /// <summary>The program.</summary>
    public RunningProgram Program { get; }

    /// <summary>Its database.</summary>
    public string DatabaseFile => Path.Combine(folder, "demonstration.db");

    /// <summary>Starts it, on what stands in an existing folder or on a laboratory made for it.</summary>
    public static async Task<DemonstrationProgram> OpenAsync(string? existing)
    {
        var opened = new DemonstrationProgram(existing);
        try
        {
            await opened.Program.StartAsync(SecondsForAYear);
            foreach (var line in await File.ReadAllLinesAsync(Path.Combine(opened.folder, DemonstrationAccessFile.FileName)))
            {
                var parts = line.Split(": ", 2);
                opened.access[parts[0]] = parts[^1];
            }
        }
        catch
        {
            await opened.DisposeAsync();
            throw;
        }

        return opened;
    }

    /// <summary>Sign-on name and password of somebody in the access file.</summary>
    public (string Name, string Password) Secrets(string key) => (access[key + ".sign-on"], access[key + ".password"]);

    /// <inheritdoc />
    public async ValueTask DisposeAsync()
    {
        await Program.DisposeAsync();
        SqlitePools.LetGoIn(new DirectoryInfo(folder));
        ownFolder?.Delete(recursive: true);
    }
}
