using System.Buffers.Binary;
using System.IO.Compression;

namespace ParticleLims.Journeys.Tests.Pages;

/// <summary>
/// Writes a browser's PNG anew with unfiltered rows (filter type 0; W3C, PNG Specification, third edition, chapter 9). Pages are flat colours and letters, which deflate
/// packs better so: the picture is the same and a quarter smaller.
/// </summary>
public static class SmallPng
{
    private const int SignatureLength = 8;

    /// <summary>The same picture in fewer bytes; the bytes as they are where they are none of 8 bits a colour without interlace.</summary>
    public static byte[] Of(byte[] png)
    {
        ArgumentNullException.ThrowIfNull(png);
        var header = png.AsSpan(SignatureLength + 8, 13);
        var (width, height) = (BinaryPrimitives.ReadInt32BigEndian(header), BinaryPrimitives.ReadInt32BigEndian(header[4..]));
        var perPixel = header[9] switch { 2 => 3, 6 => 4, _ => 0 };
        if (header[8] != 8 || perPixel == 0 || header[12] != 0)
        {
            return png;
        }

        var rows = Unpacked(png, (width * perPixel + 1) * height);
        Unfilter(rows, width * perPixel, perPixel);
        using var written = new MemoryStream();
        written.Write(png.AsSpan(0, SignatureLength));
        WriteChunk(written, "IHDR"u8, header);
        WriteChunk(written, "IDAT"u8, Packed(rows));
        WriteChunk(written, "IEND"u8, []);
        return written.Length < png.Length ? written.ToArray() : png;
    }

    private static byte[] Unpacked(byte[] png, int length)
    {
        using var packed = new MemoryStream();
        for (var at = SignatureLength; at < png.Length;)
        {
            var size = BinaryPrimitives.ReadInt32BigEndian(png.AsSpan(at));
            if (png.AsSpan(at + 4, 4).SequenceEqual("IDAT"u8))
            {
                packed.Write(png, at + 8, size);
            }

            at += size + 12;
        }

        packed.Position = 0;
        using var deflated = new ZLibStream(packed, CompressionMode.Decompress);
        var rows = new byte[length];
        deflated.ReadExactly(rows);
        return rows;
    }

    private static byte[] Packed(byte[] rows)
    {
        using var packed = new MemoryStream();
        using (var deflating = new ZLibStream(packed, CompressionLevel.SmallestSize, leaveOpen: true))
        {
            deflating.Write(rows);
        }

        return packed.ToArray();
    }

    private static void Unfilter(byte[] rows, int width, int perPixel)
    {
        var above = new byte[width];
        for (var start = 0; start < rows.Length; start += width + 1)
        {
            var row = rows.AsSpan(start + 1, width);
            for (var x = 0; x < width; x++)
            {
                var left = x >= perPixel ? row[x - perPixel] : 0;
                row[x] += (byte)(rows[start] switch
                {
                    1 => left,
                    2 => above[x],
                    3 => (left + above[x]) / 2,
                    4 => Nearest(left, above[x], x >= perPixel ? above[x - perPixel] : 0),
                    _ => 0,
                });
            }

            rows[start] = 0;
            row.CopyTo(above);
        }
    }

    /// <summary>The predictor of filter type 4.</summary>
    private static int Nearest(int left, int above, int corner)
    {
        var guess = left + above - corner;
        var (toLeft, toAbove, toCorner) = (Math.Abs(guess - left), Math.Abs(guess - above), Math.Abs(guess - corner));
        return toLeft <= toAbove && toLeft <= toCorner ? left : toAbove <= toCorner ? above : corner;
    }

    private static void WriteChunk(MemoryStream to, ReadOnlySpan<byte> name, ReadOnlySpan<byte> content)
    {
        var chunk = new byte[content.Length + 12];
        BinaryPrimitives.WriteInt32BigEndian(chunk, content.Length);
        name.CopyTo(chunk.AsSpan(4));
        content.CopyTo(chunk.AsSpan(8));
        BinaryPrimitives.WriteUInt32BigEndian(chunk.AsSpan(content.Length + 8), Checksum(chunk.AsSpan(4, content.Length + 4)));
        to.Write(chunk);
    }

    // CRC-32 of ISO 3309, as chapter 5 of the specification asks for.
    private static uint Checksum(ReadOnlySpan<byte> bytes)
    {
        var sum = uint.MaxValue;
        foreach (var one in bytes)
        {
            sum ^= one;
            for (var bit = 0; bit < 8; bit++)
            {
                sum = (sum & 1) == 0 ? sum >> 1 : (sum >> 1) ^ 0xEDB88320;
            }
        }

        return ~sum;
    }
}
