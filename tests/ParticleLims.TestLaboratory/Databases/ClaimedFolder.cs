using System.Globalization;
using System.Security.Cryptography;

namespace ParticleLims.TestLaboratory.Databases;

/// <summary>
/// The name of a server's folder in the folder for temporary files, claimed by a locked file beside it. The operating system lets go of
/// the lock when the process ends in whatever way, so a folder whose lock can be had belongs to nobody any more.
/// </summary>
public sealed class ClaimedFolder : IDisposable
{
    private const string Prefix = "particlelims-postgres-";
    private const string LockEnding = ".lock";
    private readonly FileStream claim;

    private ClaimedFolder(string folder, FileStream claim) => (Path, this.claim) = (folder, claim);

    /// <summary>The folder; it is made by the server's account.</summary>
    public string Path { get; }

    /// <summary>Claims a new name. The folder does not exist yet.</summary>
    public static ClaimedFolder Take(string root)
    {
        var name = Prefix + Environment.ProcessId.ToString(CultureInfo.InvariantCulture) + "-" + Convert.ToHexStringLower(RandomNumberGenerator.GetBytes(6));
        var folder = System.IO.Path.Combine(root, name);
        return new ClaimedFolder(folder, new FileStream(folder + LockEnding, FileMode.CreateNew, FileAccess.ReadWrite, FileShare.None));
    }

    /// <summary>The folders that processes of this user left behind, each claimed by the caller now.</summary>
    public static IEnumerable<ClaimedFolder> Abandoned(string root)
    {
        foreach (var file in Directory.GetFiles(root, Prefix + "*" + LockEnding))
        {
            if (TryLock(file) is { } claim)
            {
                yield return new ClaimedFolder(file[..^LockEnding.Length], claim);
            }
        }
    }

    /// <summary>The folders of servers that the process with this id has.</summary>
    public static IReadOnlyList<string> Of(int processId, string root) => Directory.GetDirectories(root, $"{Prefix}{processId.ToString(CultureInfo.InvariantCulture)}-*");

    /// <summary>Removes the folder and gives up the claim.</summary>
    public void Remove()
    {
        if (Directory.Exists(Path))
        {
            Directory.Delete(Path, recursive: true);
        }

        File.Delete(claim.Name);
        Dispose();
    }

    /// <summary>Gives up the claim and leaves the folder, as the end of the process does.</summary>
    public void Dispose() => claim.Dispose();

    private static FileStream? TryLock(string file)
    {
        try
        {
            return new FileStream(file, FileMode.Open, FileAccess.ReadWrite, FileShare.None);
        }
        catch (Exception taken) when (taken is IOException or UnauthorizedAccessException)
        {
            return null;
        }
    }
}
