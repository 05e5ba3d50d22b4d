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
    private const string Begin = " 0 obj\n";
    private const string StreamBegin = "\nstream\n";

    /// <summary>The most bytes of one stream when it is opened; those of a certificate have some ten thousand.</summary>
    private const int LargestOpened = 16 * 1024 * 1024;

    private readonly List<PdfObject> _objects;

    private PdfObjects(List<PdfObject> objects, int root, int info) => (_objects, Root, Info) = (objects, root, info);

    /// <summary>The number of the document's catalogue.</summary>
    public int Root { get; }

    /// <summary>The number of the document's information.</summary>
    public int Info { get; }

    public IReadOnlyList<PdfObject> All => _objects;

    /// <exception cref="InvalidDataException">The bytes are not such a PDF.</exception>
    public static PdfObjects Read(byte[] pdf)
    {
        var text = Encoding.Latin1.GetString(pdf);
        var start = text.LastIndexOf("startxref", StringComparison.Ordinal);
        var trailer = text.LastIndexOf("trailer", StringComparison.Ordinal);
        var table = start < 0 ? 0 : NumberAt(text, text.IndexOf('\n', start) + 1);
        if (start < 0 || table >= trailer)
        {
            throw new InvalidDataException("The file ends without a table of its objects.");
        }

        var places = text[table..trailer].Split('\n').Skip(2).Where(line => line.Length >= 18 && line[17] == 'n').Select(line => NumberAt(line, 0)).ToList();
        if (places.Exists(place => place >= table))
        {
            throw new InvalidDataException("An object stands behind the table of the objects.");
        }

        int[] ends = [.. places.Append(table).Order()];
        var objects = places.ConvertAll(place => ObjectAt(pdf, text, place, ends[Array.BinarySearch(ends, place) + 1]));
        return new PdfObjects(objects, NumberBehind(text, trailer, "/Root "), NumberBehind(text, trailer, "/Info "));
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
            Put(file, string.Create(CultureInfo.InvariantCulture, $"{one.Number}{Begin}{one.Text}"));
            if (one.Stream is { } stream)
            {
                Put(file, StreamBegin);
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

    /// <summary>The object between two places: what people wrote may stand in it and look like the end of an object.</summary>
    private static PdfObject ObjectAt(byte[] pdf, string text, int place, int next)
    {
        var begin = text.IndexOf(Begin, place, next - place, StringComparison.Ordinal);
        var from = begin + Begin.Length;
        var end = begin < 0 ? -1 : text.LastIndexOf("endobj", next - 1, next - from, StringComparison.Ordinal);
        if (end < from)
        {
            throw new InvalidDataException("An object does not end.");
        }

        var number = NumberAt(text, place);
        var stream = text.IndexOf(StreamBegin, from, end - from, StringComparison.Ordinal);
        if (stream < 0)
        {
            return new PdfObject(number, text[from..end].Trim(), null);
        }

        var dictionary = text[from..stream];
        var length = NumberBehind(dictionary, 0, "/Length ");
        var first = stream + StreamBegin.Length;
        return length <= end - first ? new PdfObject(number, dictionary, pdf[first..(first + length)]) : throw new InvalidDataException("A stream is longer than its object.");
    }

    private static int NumberBehind(string text, int from, string key) =>
        text.IndexOf(key, from, StringComparison.Ordinal) is >= 0 and var place ? NumberAt(text, place + key.Length) : throw new InvalidDataException($"{key.Trim()} is missing where the file should have it.");

    private static int NumberAt(string text, int place)
    {
        var end = place;
        while (end >= 0 && end < text.Length && char.IsAsciiDigit(text[end]))
        {
            end++;
        }

        return place >= 0 && end > place && int.TryParse(text.AsSpan(place, end - place), NumberStyles.None, CultureInfo.InvariantCulture, out var number) ? number : throw new InvalidDataException("A number is missing where the file should have one.");
    }

    private static void Put(MemoryStream file, string text)
    {
        var from = (int)file.Length;
        file.SetLength(from + text.Length);
        Encoding.Latin1.GetBytes(text, file.GetBuffer().AsSpan(from));
        file.Position = file.Length;
    }
}
