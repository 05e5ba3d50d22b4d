using System.Buffers;
using System.Buffers.Binary;
using System.IO.Compression;

namespace ParticleLims.Laboratory.Templates;

/// <summary>Reads a PNG (ISO/IEC 15948): its parts one by one, their check sums, and every pixel row; keeps what a picture needs.</summary>
internal static class PngFile
{
    private static readonly byte[] Signature = [0x89, 0x50, 0x4E, 0x47, 0x0D, 0x0A, 0x1A, 0x0A];

    /// <summary>The parts without which the picture would look otherwise.</summary>
    private static readonly string[] Kept = ["IHDR", "PLTE", "tRNS", "IDAT", "IEND"];

    private static readonly SearchValues<byte> Letters = SearchValues.Create("ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz"u8);
    private static readonly uint[] CheckSums = [.. Enumerable.Range(0, 256).Select(value => CheckSumOf((uint)value))];

    public static bool Begins(ReadOnlySpan<byte> file) => file.StartsWith(Signature);

    public static LogoPicture Read(byte[] file)
    {
        using var kept = new MemoryStream();
        using var packed = new MemoryStream();
        kept.Write(Signature);
        var (place, header) = (Signature.Length, default(Header?));
        while (true)
        {
            var chunk = Next(file, place);
            place += chunk.Whole.Length;
            header ??= chunk.Kind == "IHDR" ? Header.Of(chunk.Data.Span) : throw LogoPicture.CutOff();
            if (chunk.Kind == "IDAT")
            {
                packed.Write(chunk.Data.Span);
            }

            if (Kept.Contains(chunk.Kind))
            {
                kept.Write(chunk.Whole.Span);
            }
            else if (char.IsAsciiLetterUpper(chunk.Kind[0]))
            {
                // A part that a reader must understand, and that pictures do not have.
                throw LogoPicture.CutOff();
            }

            if (chunk.Kind == "IEND")
            {
                break;
            }
        }

        if (place != file.Length)
        {
            throw LogoPicture.More();
        }

        RequirePixels(packed, header);
        return new LogoPicture("image/png", header.Width, header.Height, kept.ToArray());
    }

    private static Chunk Next(byte[] file, int place)
    {
        if (file.Length - place < 12)
        {
            throw LogoPicture.CutOff();
        }

        var length = BinaryPrimitives.ReadUInt32BigEndian(file.AsSpan(place));
        if (length > file.Length - place - 12)
        {
            throw LogoPicture.CutOff();
        }

        var kind = file.AsSpan(place + 4, 4);
        var sum = BinaryPrimitives.ReadUInt32BigEndian(file.AsSpan(place + 8 + (int)length));
        if (kind.ContainsAnyExcept(Letters) || CheckSum(file.AsSpan(place + 4, (int)length + 4)) != sum)
        {
            throw LogoPicture.CutOff();
        }

        return new Chunk(System.Text.Encoding.ASCII.GetString(kind), file.AsMemory(place + 8, (int)length), file.AsMemory(place, (int)length + 12));
    }

    /// <summary>The check sum of a part: CRC-32 with the polynomial of ISO/IEC 15948, annex D.</summary>
    private static uint CheckSum(ReadOnlySpan<byte> bytes)
    {
        var sum = uint.MaxValue;
        foreach (var one in bytes)
        {
            sum = CheckSums[(byte)(sum ^ one)] ^ (sum >> 8);
        }

        return ~sum;
    }

    private static uint CheckSumOf(uint value)
    {
        for (var bit = 0; bit < 8; bit++)
        {
            value = (value & 1) == 1 ? 0xEDB88320 ^ (value >> 1) : value >> 1;
        }

        return value;
    }

    /// <summary>Unpacks as many bytes as the size asks for, and no more than that: what is packed tighter than it says is refused, not stored.</summary>
    private static void RequirePixels(MemoryStream packed, Header header)
    {
        packed.Position = 0;
        try
        {
            using var rows = new ZLibStream(packed, CompressionMode.Decompress);
            var row = new byte[header.RowBytes];
            for (var number = 0; number < header.Height; number++)
            {
                rows.ReadExactly(row);
                if (row[0] > 4)
                {
                    throw LogoPicture.CutOff();
                }
            }

            if (rows.ReadByte() >= 0)
            {
                throw LogoPicture.More();
            }
        }
        catch (Exception broken) when (broken is InvalidDataException or EndOfStreamException)
        {
            throw LogoPicture.CutOff();
        }
    }

    private sealed record Chunk(string Kind, ReadOnlyMemory<byte> Data, ReadOnlyMemory<byte> Whole);

    /// <summary>What the first part says.</summary>
    private sealed record Header(int Width, int Height, int BitsOfAPixel)
    {
        /// <summary>The bytes of one row with the filter's number before it.</summary>
        public int RowBytes => 1 + (((Width * BitsOfAPixel) + 7) / 8);

        public static Header Of(ReadOnlySpan<byte> data)
        {
            if (data.Length != 13)
            {
                throw LogoPicture.CutOff();
            }

            var (width, height) = (BinaryPrimitives.ReadUInt32BigEndian(data), BinaryPrimitives.ReadUInt32BigEndian(data[4..]));
            LogoPicture.RequireSize(width, height);
            var channels = (Depth: data[8], Colours: data[9]) switch
            {
                (8, 0) or (1 or 2 or 4 or 8, 3) => 1,
                (8, 4) => 2,
                (8, 2) => 3,
                (8, 6) => 4,
                _ => 0,
            };
            return channels > 0 && data[10] == 0 && data[11] == 0 && data[12] == 0
                ? new Header((int)width, (int)height, channels * data[8])
                : throw LogoPicture.Refused("The PNG has 16 bits a colour, fewer than 8 bits of grey, or is interlaced. Save it as a usual PNG: 8 bits, not interlaced.");
        }
    }
}
