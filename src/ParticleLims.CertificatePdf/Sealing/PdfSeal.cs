using System.Globalization;
using System.Security.Cryptography;
using System.Text;

namespace ParticleLims.CertificatePdf.Sealing;

/// <summary>Who seals, when, and what the twin is called.</summary>
internal sealed record SealParticulars(string Owner, DateTimeOffset At, string TwinName);

/// <summary>
/// Puts the machine-readable twin into a drawn certificate and seals the whole file: a signature in the way of PAdES (SubFilter ETSI.CAdES.detached)
/// over every byte but those of the signature itself.
/// </summary>
internal static class PdfSeal
{
    /// <summary>Room for the signature in hexadecimal digits; one takes some 2 000.</summary>
    public const int SignatureDigits = 6000;

    /// <summary>The byte range before it is known; as long as when it is.</summary>
    public const string OpenRange = "/ByteRange[0 0000000000 0000000000 0000000000]";

    /// <summary>Says in the document's information that the signature is written in the one form that <see cref="SignatureForm"/> tells; files sealed before there was that say nothing.</summary>
    public const string OneForm = "/SealForm(2)";

    // Below that many bytes the entry for the filter costs more than it saves.
    private const int LeastPacked = 128;

    private const string ContentsKey = "/Contents<";

    public static byte[] Seal(ReadOnlySpan<byte> drawn, byte[] twin, SealKey key, SealParticulars particulars)
    {
        var objects = PdfObjects.Read(drawn);
        Pack(objects);
        var hash = Convert.ToHexStringLower(SHA256.HashData(twin));
        objects.Replace(objects[objects.Info].With($"/ContentHash({hash}){OneForm}"));
        Attach(objects, twin, particulars);
        Prepare(objects, particulars);
        var file = objects.Write(hash[..32].ToUpperInvariant());
        Close(file, key);
        return file;
    }

    /// <summary>
    /// Compresses what the drawing left open. The library would leave the check sum off its compressed streams (RFC 1950, Adler-32), which strict readers report. What the document says
    /// about itself (XMP) stays open, for readers that look for it in the bytes.
    /// </summary>
    private static void Pack(PdfObjects objects)
    {
        foreach (var one in objects.All.Where(one => one.Stream is { Length: >= LeastPacked } && !one.Text.Contains("/Filter", StringComparison.Ordinal) && !one.Text.Contains("/Metadata", StringComparison.Ordinal)).ToList())
        {
            var stream = PdfObjects.Compress(one.Stream);
            var text = one.Text.Replace(string.Create(CultureInfo.InvariantCulture, $"/Length {one.Stream!.Length}"), string.Create(CultureInfo.InvariantCulture, $"/Length {stream.Length}"), StringComparison.Ordinal);
            objects.Replace((one with { Text = text, Stream = stream }).With("/Filter/FlateDecode"));
        }
    }

    /// <summary>The twin as an associated file (ISO 32000-2, 14.13): it says the same as the pages.</summary>
    private static void Attach(PdfObjects objects, byte[] twin, SealParticulars particulars)
    {
        var packed = PdfObjects.Compress(twin);
        var stream = objects.Add(
            string.Create(CultureInfo.InvariantCulture, $"<</Type/EmbeddedFile/Subtype/application#2Fjson/Params<</Size {twin.Length}/ModDate({Date(particulars.At)})>>/Filter/FlateDecode/Length {packed.Length}>>"), packed);
        var name = TextString(particulars.TwinName);
        var file = objects.Add(string.Create(CultureInfo.InvariantCulture, $"<</Type/Filespec/F{name}/UF{name}/Desc{TextString("The certificate for machines")}/AFRelationship/Alternative/EF<</F {stream} 0 R/UF {stream} 0 R>>>>"));
        objects.Replace(objects[objects.Root].With(string.Create(CultureInfo.InvariantCulture, $"/AF[{file} 0 R]/Names<</EmbeddedFiles<</Names[{name} {file} 0 R]>>>>")));
    }

    /// <summary>A signature field without a picture, with room for what is known only at the end.</summary>
    private static void Prepare(PdfObjects objects, SealParticulars particulars)
    {
        var page = objects.All.First(one => one.Text.StartsWith("<</Type/Page/", StringComparison.Ordinal));
        var signature = objects.Add($"<</Type/Sig/Filter/Adobe.PPKLite/SubFilter/ETSI.CAdES.detached/Name{TextString(particulars.Owner)}/M({Date(particulars.At)}){OpenRange}{ContentsKey}{new string('0', SignatureDigits)}>>>");
        var field = objects.Add(string.Create(CultureInfo.InvariantCulture, $"<</Type/Annot/Subtype/Widget/FT/Sig/T(seal)/TU(Electronic seal of the laboratory)/F 132/Rect[0 0 0 0]/P {page.Number} 0 R/V {signature} 0 R>>"));
        objects.Replace(page.With(string.Create(CultureInfo.InvariantCulture, $"/Annots[{field} 0 R]")));
        objects.Replace(objects[objects.Root].With(string.Create(CultureInfo.InvariantCulture, $"/AcroForm<</Fields[{field} 0 R]/SigFlags 3>>")));
    }

    private static void Close(byte[] file, SealKey key)
    {
        var range = file.AsSpan().LastIndexOf(Encoding.ASCII.GetBytes(OpenRange));
        var begin = file.AsSpan().LastIndexOf(Encoding.ASCII.GetBytes(ContentsKey + "0")) + ContentsKey.Length - 1;
        var end = begin + SignatureDigits + 2;
        Encoding.ASCII.GetBytes(RangeText(begin, end, file.Length), file.AsSpan(range));
        var message = Signing.Sign(key, Digest(file, begin, end));
        Encoding.ASCII.GetBytes(Convert.ToHexStringLower(message), file.AsSpan(begin + 1));
    }

    /// <summary>The range of a file whose signature stands, with its angle brackets, between two places.</summary>
    internal static string RangeText(int begin, int end, int length) =>
        string.Create(CultureInfo.InvariantCulture, $"/ByteRange[0 {begin:0000000000} {end:0000000000} {length - end:0000000000}]");

    /// <summary>SHA-256 of all bytes but those between two places.</summary>
    internal static byte[] Digest(byte[] file, int begin, int end)
    {
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        hash.AppendData(file, 0, begin);
        hash.AppendData(file, end, file.Length - end);
        return hash.GetHashAndReset();
    }

    private static string Date(DateTimeOffset at) => at.UtcDateTime.ToString("'D:'yyyyMMddHHmmss'Z'", CultureInfo.InvariantCulture);

    /// <summary>Any text as a PDF string: UTF-16, hexadecimal (ISO 32000-1, 7.9.2.2).</summary>
    private static string TextString(string text) => $"<FEFF{Convert.ToHexString(Encoding.BigEndianUnicode.GetBytes(text))}>";
}
