using System.Text;
using ParticleLims.CertificatePdf.Sealing;
using ParticleLims.Laboratory.Heads;

namespace ParticleLims.Web.Heads;

/// <summary>Signs heads with the key that seals certificates, and writes them into a folder of another machine.</summary>
internal sealed class HeadOutside(SealKeys keys) : IHeadOutside
{
    // A share that does not answer must not hold the program up.
    private static readonly TimeSpan Longest = TimeSpan.FromSeconds(30);

    /// <inheritdoc />
    public byte[] Sign(string laboratory, string lines) => keys.Current(laboratory).SignText(lines);

    /// <inheritdoc />
    public async Task<string?> WriteAsync(string folder, string name, string text, CancellationToken cancellation)
    {
        try
        {
            return await Task.Run(() => Write(folder, name, text), cancellation).WaitAsync(Longest, cancellation);
        }
        catch (TimeoutException)
        {
            return $"The folder {folder} does not answer.";
        }
        catch (Exception fault) when (fault is IOException or UnauthorizedAccessException or NotSupportedException)
        {
            return $"The folder {folder} cannot be written: {fault.Message}";
        }
    }

    // The folder is never made here: a share that is not mounted would quietly become a folder of this machine.
    private static string? Write(string folder, string name, string text)
    {
        if (!Directory.Exists(folder))
        {
            return $"There is no folder {folder}. Is the other machine's share there?";
        }

        // Made new and in one piece: the share may well refuse to rename or remove, and should.
        using var stream = new FileStream(Path.Combine(folder, name), FileMode.CreateNew, FileAccess.Write);
        stream.Write(Encoding.UTF8.GetBytes(text));
        stream.Flush(flushToDisk: true);
        return null;
    }
}
