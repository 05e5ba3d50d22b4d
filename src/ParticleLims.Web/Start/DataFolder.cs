namespace ParticleLims.Web.Start;

/// <summary>Holds the data folder's SQLite file for this program alone, until it ends however it ends.</summary>
public sealed class DataFolder(StartOptions options) : IDisposable
{
    private FileStream? held;

    /// <summary>Takes it.</summary>
    /// <exception cref="StartRefusedException">Another program has it, or the folder cannot be written.</exception>
    public void Take()
    {
        var file = options.DatabaseFile + ".in-use";
        try
        {
            Make();
            held = options.DatabaseConnection is null ? new FileStream(file, FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.None) : null;
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException)
        {
            throw new StartRefusedException(Directory.Exists(options.DataFolder) && fault is IOException
                ? $"Another program has this laboratory open: {options.DatabaseFile}. End that one first, or choose another folder with --data."
                : $"The data folder {options.DataFolder} cannot be used: {fault.Message} Choose another with --data.");
        }
    }

    // Keys, passwords' hashes and access files lie here: nobody else's business.
    private void Make()
    {
        if (OperatingSystem.IsWindows())
        {
            Directory.CreateDirectory(options.DataFolder);
        }
        else if (!Directory.Exists(options.DataFolder))
        {
            Directory.CreateDirectory(options.DataFolder, UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute);
        }
    }

    /// <inheritdoc />
    public void Dispose() => held?.Dispose();
}
