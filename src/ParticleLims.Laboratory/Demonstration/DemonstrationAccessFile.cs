using System.Globalization;
using System.Text;
using ParticleLims.Laboratory.People;

namespace ParticleLims.Laboratory.Demonstration;

/// <summary>The access file: lines <c>name: value</c> in UTF-8, readable by its owner alone where the system knows that.</summary>
public static class DemonstrationAccessFile
{
    /// <summary>The usual name of the file in the data folder.</summary>
    public const string FileName = "demo-access.txt";

    /// <summary>Writes the file, in place of an older one, and returns when it is on disk.</summary>
    public static async Task WriteAsync(string path, DemonstrationAccess access, CancellationToken cancellation = default)
    {
        ArgumentException.ThrowIfNullOrEmpty(path);
        ArgumentNullException.ThrowIfNull(access);
        var beside = path + ".new";
        File.Delete(beside);
        await using (var file = new FileStream(beside, Options()))
        {
            await file.WriteAsync(Encoding.UTF8.GetBytes(string.Concat(Lines(access).Select(line => $"{line.Name}: {line.Value}\n"))), cancellation);
            file.Flush(flushToDisk: true);
        }

        File.Move(beside, path, overwrite: true);
    }

    /// <summary>What stands in the file, in order.</summary>
    public static IEnumerable<(string Name, string Value)> Lines(DemonstrationAccess access)
    {
        ArgumentNullException.ThrowIfNull(access);
        yield return ("laboratory", "Tarnfell Milling, a demonstration; everything in it is invented");
        yield return ("created", access.CreatedAt.UtcDateTime.ToString("yyyy-MM-dd'T'HH:mm:ss'Z'", CultureInfo.InvariantCulture));
        foreach (var person in access.People)
        {
            yield return (person.Key + ".role", person.Role.Words());
            yield return (person.Key + ".name", person.FullName);
            yield return (person.Key + ".sign-on", person.SignOnName);
            yield return (person.Key + ".password", person.Password);
            yield return (person.Key + ".pin", person.Pin);
            if (person.Customer is { } customer)
            {
                yield return (person.Key + ".customer", customer);
            }
        }

        yield return ("api-token.speaks-for", access.ApiTokenSpeaksFor);
        yield return ("api-token", access.ApiToken);
    }

    private static FileStreamOptions Options()
    {
        var options = new FileStreamOptions { Mode = FileMode.CreateNew, Access = FileAccess.Write, Share = FileShare.None };
        if (!OperatingSystem.IsWindows())
        {
            options.UnixCreateMode = UnixFileMode.UserRead | UnixFileMode.UserWrite;
        }

        return options;
    }
}
