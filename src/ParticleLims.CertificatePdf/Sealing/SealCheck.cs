using System.Buffers;
using System.Globalization;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;
using System.Text;

namespace ParticleLims.CertificatePdf.Sealing;

/// <summary>What a file's seal says.</summary>
public enum SealOutcome
{
    /// <summary>Sealed by a known key, and not a byte changed since.</summary>
    Genuine,

    /// <summary>Not a byte changed since it was sealed, but nobody here knows the key.</summary>
    KeyUnknown,

    /// <summary>It has a seal, which does not fit the file.</summary>
    Changed,

    /// <summary>It has no seal of this kind.</summary>
    NotSealed,
}

/// <summary>The outcome with what was found in the file.</summary>
/// <param name="Outcome">What the seal says.</param>
/// <param name="Certificate">Whose key sealed it; null where no seal holds.</param>
/// <param name="Twin">The bytes of the machine-readable twin; null where no seal holds.</param>
/// <param name="ContentHash">SHA-256 of the twin, hexadecimal, as the pages print it; null where no seal holds.</param>
public sealed record SealFinding(SealOutcome Outcome, X509Certificate2? Certificate, byte[]? Twin, string? ContentHash)
{
    internal static SealFinding None(SealOutcome outcome) => new(outcome, null, null, null);
}

/// <summary>Checks the seal of a certificate's file without asking anybody.</summary>
public static class SealCheck
{
    /// <summary>The most bytes that are looked at, 20 MB; a certificate has some sixty thousand.</summary>
    public const int LargestFile = 20 * 1024 * 1024;

    private static readonly SearchValues<byte> _digits = SearchValues.Create("0123456789abcdef"u8);

    /// <summary>Checks a file against the keys that are known. Whatever the bytes are, it answers.</summary>
    public static SealFinding Check(byte[] file, IReadOnlyCollection<X509Certificate2> known)
    {
        ArgumentNullException.ThrowIfNull(file);
        ArgumentNullException.ThrowIfNull(known);
        if (file.Length > LargestFile || file.AsSpan().IndexOf(RangeKey) < 0)
        {
            return SealFinding.None(SealOutcome.NotSealed);
        }

        return Gap(file) is (var begin, var end) && Message(file, begin, end) is { } message && Signing.Check(message, PdfSeal.Digest(file, begin, end)) is { } signed
            ? Opened(file, signed, known.Any(one => one.RawDataMemory.Span.SequenceEqual(signed.Certificate.RawDataMemory.Span)))
            : SealFinding.None(SealOutcome.Changed);
    }

    private static ReadOnlySpan<byte> RangeKey => "/ByteRange["u8;

    /// <summary>
    /// Where the signature stands with its brackets. What people wrote may look like a byte range; only the one that fits this file to the byte can be the seal's,
    /// and of a file with two of these nothing is believed, however often it would have to be hashed to find the right one.
    /// </summary>
    private static (int Begin, int End)? Gap(byte[] file)
    {
        (int Begin, int End)? found = null;
        for (var at = file.AsSpan().IndexOf(RangeKey); at >= 0; at = Next(file, at))
        {
            if (Fitting(file, at) is not { } gap)
            {
                continue;
            }

            if (found is not null)
            {
                return null;
            }

            found = gap;
        }

        return found;
    }

    private static int Next(byte[] file, int at) => file.AsSpan(at + RangeKey.Length).IndexOf(RangeKey) is >= 0 and var further ? at + RangeKey.Length + further : -1;

    /// <summary>The range at a place leaves out the signature in its brackets and nothing else, and reaches to the last byte; null when it does not.</summary>
    private static (int Begin, int End)? Fitting(byte[] file, int at)
    {
        var text = file.AsSpan(at, Math.Min(PdfSeal.OpenRange.Length, file.Length - at));
        if (text.Length < PdfSeal.OpenRange.Length
            || !int.TryParse(text.Slice("/ByteRange[0 ".Length, 10), NumberStyles.None, CultureInfo.InvariantCulture, out var begin) || begin < 1 || begin > file.Length - PdfSeal.SignatureDigits - 3)
        {
            return null;
        }

        var end = begin + PdfSeal.SignatureDigits + 2;
        return file[begin] == '<' && file[end - 1] == '>' && text.SequenceEqual(Encoding.ASCII.GetBytes(PdfSeal.RangeText(begin, end, file.Length))) ? (begin, end) : null;
    }

    private static SealFinding Opened(byte[] file, Signed signed, bool isKnown)
    {
        try
        {
            var objects = PdfObjects.Read(file);
            var twin = PdfObjects.Decompress(objects.All.Single(one => one.Stream is not null && one.Text.StartsWith("<</Type/EmbeddedFile", StringComparison.Ordinal)).Stream!);
            var hash = Convert.ToHexStringLower(SHA256.HashData(twin));
            var info = objects[objects.Info].Text;
            return info.Contains($"/ContentHash({hash})", StringComparison.Ordinal) && (signed.InOneForm || !info.Contains(PdfSeal.OneForm, StringComparison.Ordinal))
                ? new SealFinding(isKnown ? SealOutcome.Genuine : SealOutcome.KeyUnknown, signed.Certificate, twin, hash)
                : SealFinding.None(SealOutcome.Changed);
        }
        catch (Exception foreign) when (foreign is InvalidDataException or InvalidOperationException)
        {
            return SealFinding.None(SealOutcome.Changed);
        }
    }

    /// <summary>The signature: lower-case digits, and zeros behind it; null when there is anything else.</summary>
    private static byte[]? Message(byte[] file, int begin, int end)
    {
        var digits = file.AsSpan()[(begin + 1)..(end - 1)];
        if (digits.ContainsAnyExcept(_digits))
        {
            return null;
        }

        var bytes = Convert.FromHexString(Encoding.ASCII.GetString(digits));
        var length = System.Formats.Asn1.AsnDecoder.TryReadEncodedValue(bytes, System.Formats.Asn1.AsnEncodingRules.DER, out _, out _, out _, out var consumed) ? consumed : 0;
        return length > 0 && !bytes.AsSpan(length).ContainsAnyExcept((byte)0) ? bytes[..length] : null;
    }
}
