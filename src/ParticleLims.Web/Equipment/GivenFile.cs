using Microsoft.AspNetCore.Components.Forms;
using ParticleLims.Laboratory.Equipment;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Web.Equipment;

/// <summary>Reads a file that was chosen in a page, no further than files are kept.</summary>
internal static class GivenFile
{
    /// <summary>The file, or what is wrong with it in words.</summary>
    public static async Task<(FileGiven? File, string? Problem)> ReadAsync(IBrowserFile file, bool photograph, CancellationToken cancellation)
    {
        try
        {
            await using var stream = file.OpenReadStream(FileKind.Largest, cancellation);
            using var memory = new MemoryStream();
            await stream.CopyToAsync(memory, cancellation);
            var given = new FileGiven(Path.GetFileName(file.Name), memory.ToArray());
            _ = photograph ? FileKind.OfPhotograph(given.Bytes) : FileKind.Of(given.Bytes);
            return (given, null);
        }
        catch (IOException)
        {
            return (null, "The file is larger than 5 MB, or was taken away while it was read. Take a smaller photograph, or split the document.");
        }
        catch (RefusedException refusal)
        {
            return (null, refusal.Message);
        }
    }
}
