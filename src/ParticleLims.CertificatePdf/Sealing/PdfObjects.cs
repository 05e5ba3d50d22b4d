using System.Globalization;
using System.IO.Compression;
using System.Text;

namespace ParticleLims.CertificatePdf.Sealing;

/// <summary>One object of a PDF: what stands in it as Latin letters, and its stream as it is stored.</summary>
internal sealed record PdfObject(int Number, string Text, byte[]? Stream)
{
    /// <summary>The object with more entries in its dictionary.</summary>
    public PdfObject With(string entries) => this with { Text = string.Concat(Text.AsSpan(0, Text.LastIndexOf(">>", StringComparison.Ordinal)), entries, ">>") };
}

/// <summary>The objects of a PDF as our own writer leaves them: one cross-reference table, no compressed objects.</summary>
internal sealed class PdfObjects
{

    /// <summary>The most bytes of one stream when it is opened; those of a certificate have some ten thousand.</summary>
    private const int LargestOpened = 16 * 1024 * 1024;

    private readonly List<PdfObject> _objects;

    private static ReadOnlySpan<byte> Begin => " 0 obj\n"u8;

    private static ReadOnlySpan<byte> StreamBegin => "\nstream\n"u8;

    private PdfObjects(List<PdfObject> objects, int root, int info) => (_objects, Root, Info) = (objects, root, info);

    /// <summary>The number of the document's catalogue.</summary>
    public int Root { get; }

    /// <summary>The number of the document's information.</summary>
    public int Info { get; }

    public IReadOnlyList<PdfObject> All => _objects;

    /// <exception cref="InvalidDataException">The bytes are not such a PDF.</exception>
    public static PdfObjects Read(ReadOnlySpan<byte> pdf)
    {
        var start = pdf.LastIndexOf("startxref"u8);
        var trailer = pdf.LastIndexOf("trailer"u8);
        var table = start < 0 ? 0 : NumberAt(pdf, start + "startxref\n".Length);
        if (start < 0 || table >= trailer)
        {
            throw new InvalidDataException("The file ends without a table of its objects.");
        }

        var places = PlacesIn(pdf[table..trailer]);
        if (places.Exists(place => place >= table))
        {
            throw new InvalidDataException("An object stands behind the table of the objects.");
        }

        int[] ends = [.. places.Append(table).Order()];
        var objects = new List<PdfObject>(places.Count + 4);
        foreach (var place in places)
        {
            objects.Add(ObjectAt(pdf[place..ends[Array.BinarySearch(ends, place) + 1]]));
        }

        return new PdfObjects(objects, NumberBehind(pdf[trailer..], "/Root "u8), NumberBehind(pdf[trailer..], "/Info "u8));
    }

    /// <summary>The object of a number.</summary>
    public PdfObject this[int number] => _objects.Find(one => one.Number == number) ?? throw new InvalidDataException($"Object {number.ToString(CultureInfo.InvariantCulture)} is missing.");

    /// <summary>Adds an object and answers its number.</summary>
    public int Add(string text, byte[]? stream = null)
    {
        var number = _objects.Max(one => one.Number) + 1;
        _objects.Add(new PdfObject(number, text, stream));
        return number;
    }

    public void Replace(PdfObject changed) => _objects[_objects.FindIndex(one => one.Number == changed.Number)] = changed;

    /// <summary>The file with all its objects; <paramref name="id"/> is its identifier, 32 hexadecimal digits.</summary>
    public byte[] Write(string id)
    {
        using var file = new MemoryStream(_objects.Sum(one => one.Text.Length + (one.Stream?.Length ?? 0) + 64) + 1024);
        Put(file, "%PDF-1.7\n%\u00e2\u00e3\u00cf\u00d3\n");
        var places = new SortedDictionary<int, long>();
        foreach (var one in _objects)
        {
            places.Add(one.Number, file.Position);
            Put(file, string.Create(CultureInfo.InvariantCulture, $"{one.Number} 0 obj\n{one.Text}"));
            if (one.Stream is { } stream)
            {
                file.Write(StreamBegin);
                file.Write(stream);
                Put(file, "\nendstream");
            }

            Put(file, "\nendobj\n");
        }

        var table = file.Position;
        Put(file, string.Create(CultureInfo.InvariantCulture, $"xref\n0 {places.Count + 1}\n0000000000 65535 f \n"));
        foreach (var place in places.Values)
        {
            Put(file, string.Create(CultureInfo.InvariantCulture, $"{place:0000000000} 00000 n \n"));
        }

        Put(file, string.Create(CultureInfo.InvariantCulture, $"trailer\n<</ID[<{id}><{id}>]/Info {Info} 0 R/Root {Root} 0 R/Size {places.Count + 1}>>\nstartxref\n{table}\n%%EOF\n"));
        return file.ToArray();
    }

    /// <summary>Bytes compressed as a PDF stores them (RFC 1950).</summary>
    public static byte[] Compress(ReadOnlySpan<byte> bytes)
    {
        using var packed = new MemoryStream();
        using (var zip = new ZLibStream(packed, CompressionLevel.Optimal, leaveOpen: true))
        {
            zip.Write(bytes);
        }

        return packed.ToArray();
    }

    /// <summary>A compressed stream opened again; also one without its check sum, as the drawing library leaves them.</summary>
    /// <exception cref="InvalidDataException">It is no such stream, or opens to more than <see cref="LargestOpened"/> bytes: a few bytes can unfold to any number.</exception>
    public static byte[] Decompress(byte[] stream)
    {
        if (stream.Length < 2)
        {
            throw new InvalidDataException("A stream is too short to be compressed.");
        }

        using var packed = new DeflateStream(new MemoryStream(stream, 2, stream.Length - 2), CompressionMode.Decompress);
        using var bytes = new MemoryStream();
        var some = new byte[16 * 1024];
        for (var count = packed.Read(some); count > 0; count = packed.Read(some))
        {
            bytes.Write(some, 0, count);
            if (bytes.Length > LargestOpened)
            {
                throw new InvalidDataException("A stream opens to more than any of a certificate has.");
            }
        }

        return bytes.ToArray();
    }

    /// <summary>Where the objects in use begin, by the lines of the table.</summary>
    private static List<int> PlacesIn(ReadOnlySpan<byte> table)
    {
        var places = new List<int>();
        var number = 0;
        foreach (var range in table.Split((byte)'\n'))
        {
            // Two lines of the table's own stand above.
            var line = table[range];
            if (++number > 2 && line.Length >= 18 && line[17] == 'n')
            {
                places.Add(NumberAt(line, 0));
            }
        }

        return places;
    }

    /// <summary>The object that these bytes are, up to the next one: what people wrote may stand in it and look like the end of an object.</summary>
    private static PdfObject ObjectAt(ReadOnlySpan<byte> bytes)
    {
        var number = NumberAt(bytes, 0);
        var begin = bytes.IndexOf(Begin);
        var end = bytes.LastIndexOf("endobj"u8);
        if (begin < 0 || end < begin + Begin.Length)
        {
            throw new InvalidDataException("An object does not end.");
        }

        var inner = bytes[(begin + Begin.Length)..end];
        var stream = inner.IndexOf(StreamBegin);
        if (stream < 0)
        {
            return new PdfObject(number, Encoding.Latin1.GetString(inner).Trim(), null);
        }

        var dictionary = inner[..stream];
        var stored = inner[(stream + StreamBegin.Length)..];
        var length = NumberBehind(dictionary, "/Length "u8);
        return length <= stored.Length ? new PdfObject(number, Encoding.Latin1.GetString(dictionary), stored[..length].ToArray()) : throw new InvalidDataException("A stream is longer than its object.");
    }

    private static int NumberBehind(ReadOnlySpan<byte> bytes, ReadOnlySpan<byte> key) =>
        bytes.IndexOf(key) is >= 0 and var place ? NumberAt(bytes, place + key.Length) : throw new InvalidDataException($"{Encoding.ASCII.GetString(key).Trim()} is missing where the file should have it.");

    private static int NumberAt(ReadOnlySpan<byte> bytes, int place)
    {
        var digits = place < bytes.Length ? bytes[place..] : default;
        var other = digits.IndexOfAnyExceptInRange((byte)'0', (byte)'9');
        return int.TryParse(other < 0 ? digits : digits[..other], NumberStyles.None, CultureInfo.InvariantCulture, out var number) ? number : throw new InvalidDataException("A number is missing where the file should have one.");
    }

    private static void Put(MemoryStream file, string text)
    {
        var from = (int)file.Length;
        file.SetLength(from + text.Length);
        Encoding.Latin1.GetBytes(text, file.GetBuffer().AsSpan(from));
        file.Position = file.Length;
    }
}
