namespace ParticleLims.Web.Start;

/// <summary>Holds the data folder's SQLite file for this program alone, until it ends however it ends.</summary>
public sealed class DataFolder(StartOptions options) : IDisposable
{
    private FileStream? held;
    private bool marked;

    /// <summary>Whether the program that had it before ended without ending in order: a power cut, a crash, a kill.</summary>
    public bool EndedInDisorder { get; private set; }

    /// <summary>Takes it.</summary>
    /// <exception cref="StartRefusedException">Another program has it, or the folder cannot be written.</exception>
    public void Take()
    {
        var file = options.DatabaseFile + ".in-use";
        try
        {
            Make();
            held = options.DatabaseConnection is null ? new FileStream(file, FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.None) : null;
            EndedInDisorder = held?.Length > 0;
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException)
        {
            throw new StartRefusedException(Directory.Exists(options.DataFolder) && fault is IOException
                ? $"Another program has this laboratory open: {options.DatabaseFile}. End that one first, or choose another folder with --data."
                : $"The data folder {options.DataFolder} cannot be used: {fault.Message} Choose another with --data.");
        }
    }

    /// <summary>Leaves a mark on the disk that only an end in order takes away. It comes after the opening: a start that was refused is no crash.</summary>
    public void MarkRunning()
    {
        if (held is not null)
        {
            held.SetLength(0);
            held.Write("running"u8);
            held.Flush(flushToDisk: true);
            marked = true;
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
    public void Dispose()
    {
        if (marked)
        {
            held!.SetLength(0);
            held.Flush(flushToDisk: true);
            marked = false;
        }

        held?.Dispose();
    }
}
