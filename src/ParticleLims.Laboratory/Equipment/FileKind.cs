using ParticleLims.Laboratory.Record;

namespace ParticleLims.Laboratory.Equipment;

/// <summary>A file as it was handed in. Its name is kept for people only; what it is follows from its first bytes.</summary>
public sealed record FileGiven(string Name, byte[] Bytes);

/// <summary>The kinds of file that are kept: documents and photographs that no browser runs.</summary>
public sealed record FileKind(string MediaType, string Ending)
{
    /// <summary>The largest file in bytes: 5 MiB.</summary>
    public const int Largest = 5 * 1024 * 1024;

    private static readonly (byte[] Begin, FileKind Kind)[] Known =
    [
        ("%PDF-"u8.ToArray(), new FileKind("application/pdf", "pdf")),
        ([0x89, 0x50, 0x4E, 0x47, 0x0D, 0x0A, 0x1A, 0x0A], new FileKind("image/png", "png")),
        ([0xFF, 0xD8, 0xFF], new FileKind("image/jpeg", "jpg")),
    ];

    /// <summary>Whether a browser can show it as a picture.</summary>
    public bool IsPicture => MediaType.StartsWith("image/", StringComparison.Ordinal);

    /// <summary>What a photograph is by its content, whatever its name says.</summary>
    /// <exception cref="RefusedException">It is none of the kinds that are kept, or a document.</exception>
    public static FileKind OfPhotograph(byte[] bytes) => Of(bytes) is { IsPicture: true } picture ? picture
        : throw new RefusedException("file-kind", "A photograph is a PNG or a JPEG picture. Keep a PDF as a document of another kind.", "file");

    /// <summary>What a file is by its content, whatever its name says.</summary>
    /// <exception cref="RefusedException">It is empty, too large, or none of the kinds that are kept.</exception>
    public static FileKind Of(byte[] bytes)
    {
        ArgumentNullException.ThrowIfNull(bytes);
        if (bytes.Length is 0 or > Largest)
        {
            throw new RefusedException("file-size", "The file is empty or larger than 5 MB. Take a smaller photograph, or split the document.", "file");
        }

        return Array.Find(Known, one => bytes.AsSpan().StartsWith(one.Begin)).Kind
            ?? throw new RefusedException("file-kind", "The file is not a PDF, a PNG or a JPEG picture, whatever its name says. Save it as one of these.", "file");
    }
}
