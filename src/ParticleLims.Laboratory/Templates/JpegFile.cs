using System.Buffers.Binary;

namespace ParticleLims.Laboratory.Templates;

/// <summary>Reads a JPEG (ISO/IEC 10918-1): its segments one by one to the mark at its end; keeps what a picture needs.</summary>
internal static class JpegFile
{
    private const byte StartOfImage = 0xD8;
    private const byte EndOfImage = 0xD9;
    private const byte StartOfScan = 0xDA;
    private const byte Adobe = 0xEE;

    /// <summary>The usual first part of a file (ISO/IEC 10918-5, JFIF 1.01): no unit of density, no small picture. It says that colours are coded as brightness and two differences.</summary>
    private static readonly byte[] Header = [0xFF, 0xE0, 0, 16, (byte)'J', (byte)'F', (byte)'I', (byte)'F', 0, 1, 1, 0, 0, 1, 0, 1, 0, 0];

    public static bool Begins(ReadOnlySpan<byte> file) => file.StartsWith((ReadOnlySpan<byte>)[0xFF, StartOfImage, 0xFF]);

    public static LogoPicture Read(byte[] file)
    {
        using var kept = new MemoryStream();
        kept.Write([0xFF, StartOfImage, .. Header]);
        var (place, size, scans, unusual) = (2, default((int Width, int Height, int Colours)?), 0, false);
        while (true)
        {
            var marker = Marker(file, ref place);
            if (marker == EndOfImage)
            {
                break;
            }

            var from = place - 2;
            var segment = Segment(file, ref place);
            size ??= IsFrame(marker) ? SizeOf(marker, segment) : null;
            if (marker == StartOfScan)
            {
                place = EndOfScan(file, place);
                scans++;
            }

            unusual |= IsUnusual(marker, segment);

            // Tables, frames and scans; nothing that an application put beside them.
            if (marker is >= 0xC0 and <= 0xDF)
            {
                kept.Write(file.AsSpan(from, place - from));
            }
        }

        if (size is not { } found || scans == 0)
        {
            throw LogoPicture.CutOff();
        }

        if (unusual && found.Colours > 1)
        {
            throw LogoPicture.Refused("The JPEG codes its colours in an unusual way. Save it as a usual JPEG or PNG.");
        }

        if (place != file.Length)
        {
            throw LogoPicture.More();
        }

        kept.Write([0xFF, EndOfImage]);
        return new LogoPicture("image/jpeg", found.Width, found.Height, kept.ToArray());
    }

    private static byte Marker(byte[] file, ref int place)
    {
        if (place + 2 > file.Length || file[place] != 0xFF)
        {
            throw LogoPicture.CutOff();
        }

        while (place + 1 < file.Length && file[place + 1] == 0xFF)
        {
            place++;
        }

        var marker = place + 1 < file.Length ? file[place + 1] : (byte)0;
        place += 2;
        return marker is >= 0xC0 and not StartOfImage and not (>= 0xD0 and <= 0xD7) ? marker : throw LogoPicture.CutOff();
    }

    private static ReadOnlySpan<byte> Segment(byte[] file, ref int place)
    {
        var length = place + 2 <= file.Length ? BinaryPrimitives.ReadUInt16BigEndian(file.AsSpan(place)) : 0;
        if (length < 2 || place + length > file.Length)
        {
            throw LogoPicture.CutOff();
        }

        var segment = file.AsSpan(place + 2, length - 2);
        place += length;
        return segment;
    }

    /// <summary>Whether an application's part says that colours are coded otherwise than the header does.</summary>
    private static bool IsUnusual(byte marker, ReadOnlySpan<byte> segment) => marker == Adobe && segment.StartsWith("Adobe"u8) && segment.Length >= 12 && segment[11] != 1;

    private static bool IsFrame(byte marker) => marker is >= 0xC0 and <= 0xCF and not (0xC4 or 0xC8 or 0xCC);

    private static (int Width, int Height, int Colours) SizeOf(byte marker, ReadOnlySpan<byte> frame)
    {
        if (frame.Length < 6)
        {
            throw LogoPicture.CutOff();
        }

        var (height, width) = (BinaryPrimitives.ReadUInt16BigEndian(frame[1..]), BinaryPrimitives.ReadUInt16BigEndian(frame[3..]));
        LogoPicture.RequireSize(width, height);
        return marker is 0xC0 or 0xC1 or 0xC2 && frame[0] == 8 && frame[5] is 1 or 3
            ? (width, height, frame[5])
            : throw LogoPicture.Refused("The JPEG is coded for printing presses (CMYK), without loss, or with 12 bits. Save it as a usual JPEG or PNG.");
    }

    /// <summary>The place of the first marker behind the coded pixels; 0xFF in them is followed by 0, or is a mark to start again.</summary>
    private static int EndOfScan(byte[] file, int place)
    {
        while (place + 1 < file.Length)
        {
            if (file[place] == 0xFF && file[place + 1] is not (0x00 or (>= 0xD0 and <= 0xD7) or 0xFF))
            {
                return place;
            }

            place++;
        }

        throw LogoPicture.CutOff();
    }
}
