using System.Buffers;
using System.Globalization;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;
using System.Text;
using System.Text.RegularExpressions;

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
public static partial class SealCheck
{
    private static readonly SearchValues<byte> _digits = SearchValues.Create("0123456789abcdef"u8);

    [GeneratedRegex(@"/ByteRange\[0 (?<begin>\d{10}) (?<end>\d{10}) \d{10}\]", RegexOptions.CultureInvariant, matchTimeoutMilliseconds: 5_000)]
    private static partial Regex Range { get; }

    /// <summary>Checks a file against the keys that are known.</summary>
    public static SealFinding Check(byte[] file, IReadOnlyCollection<X509Certificate2> known)
    {
        ArgumentNullException.ThrowIfNull(file);
        ArgumentNullException.ThrowIfNull(known);
        var ranges = Range.Matches(Encoding.Latin1.GetString(file));
        foreach (Match range in ranges)
        {
            // What people wrote may look like a range; only the one that fits this file can be the seal's.
            var (begin, end) = (Number(range.Groups["begin"]), Number(range.Groups["end"]));
            if (Covers(file, begin, end, range.Value) && Message(file, (int)begin, (int)end) is { } message && Signing.Check(message, PdfSeal.Digest(file, (int)begin, (int)end)) is { } certificate)
            {
                return Opened(file, certificate, known.Any(one => one.RawDataMemory.Span.SequenceEqual(certificate.RawDataMemory.Span)));
            }
        }

        return SealFinding.None(ranges.Count == 0 ? SealOutcome.NotSealed : SealOutcome.Changed);
    }

    private static SealFinding Opened(byte[] file, X509Certificate2 certificate, bool isKnown)
    {
        try
        {
            var objects = PdfObjects.Read(file);
            var twin = PdfObjects.Decompress(objects.All.Single(one => one.Stream is not null && one.Text.StartsWith("<</Type/EmbeddedFile", StringComparison.Ordinal)).Stream!);
            var hash = Convert.ToHexStringLower(SHA256.HashData(twin));
            return objects[objects.Info].Text.Contains($"/ContentHash({hash})", StringComparison.Ordinal)
                ? new SealFinding(isKnown ? SealOutcome.Genuine : SealOutcome.KeyUnknown, certificate, twin, hash)
                : SealFinding.None(SealOutcome.Changed);
        }
        catch (Exception foreign) when (foreign is InvalidDataException or InvalidOperationException)
        {
            return SealFinding.None(SealOutcome.Changed);
        }
    }

    /// <summary>The range leaves out the signature in its brackets and nothing else, and reaches to the last byte.</summary>
    private static bool Covers(byte[] file, long begin, long end, string range) =>
        begin > 0 && end - begin == PdfSeal.SignatureDigits + 2 && end < file.Length && file[begin] == '<' && file[end - 1] == '>'
        && range == PdfSeal.RangeText((int)begin, (int)end, file.Length);

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

    private static long Number(Group digits) => long.Parse(digits.ValueSpan, NumberStyles.None, CultureInfo.InvariantCulture);
}
