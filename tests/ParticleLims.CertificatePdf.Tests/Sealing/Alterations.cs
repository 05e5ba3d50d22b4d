using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using ParticleLims.CertificatePdf.Sealing;

namespace ParticleLims.CertificatePdf.Tests.Sealing;

/// <summary>A file with what was done to it.</summary>
internal sealed record AlteredFile(byte[] Bytes, string What);

/// <summary>Files made from a sealed certificate by accident or by somebody who wants them taken for it; the same number always makes the same one.</summary>
/// <param name="seed">From which all chance comes.</param>
/// <param name="original">The certificate.</param>
/// <param name="other">Another one, sealed by the same key.</param>
/// <param name="laboratory">The public part of the key of both.</param>
internal sealed class Alterations(int seed, byte[] original, byte[] other, System.Security.Cryptography.X509Certificates.X509Certificate2 laboratory) : IDisposable
{
    private static readonly string[] _kinds =
    [
        "a bit flipped", "bytes changed", "a stretch cut out", "a stretch put in", "a stretch doubled", "two stretches exchanged", "the end cut off", "bytes added at the end",
        "a revision added that changes what is shown", "a revision added that attaches another twin", "a revision added, and the byte range led round it", "the attachment exchanged, with its printed hash", "another byte range",
        "the signature of another certificate", "signed again by another key", "signed by another key in the laboratory's name", "the halves of two certificates", "the signature written in another way",
        "the whole file inside another one", "the second certificate behind it", "bytes changed and sealed again by another key", "structure changed and sealed again by another key",
    ];

    private readonly SealKey _foreign = SealKey.Make("Tarnfell Milling", new DateTimeOffset(2026, 1, 1, 0, 0, 0, TimeSpan.Zero));

    /// <summary>The kinds in words.</summary>
    public static IReadOnlyList<string> Kinds => _kinds;

    /// <summary>The altered file of a number, never the original itself.</summary>
    public AlteredFile Make(int trial)
    {
        var kind = trial % _kinds.Length;
        for (var attempt = 0; ; attempt++)
        {
            var bytes = Make(kind, new Random(HashCode(trial, attempt)));
            if (!bytes.AsSpan().SequenceEqual(original) && !bytes.AsSpan().SequenceEqual(other))
            {
                return new AlteredFile(bytes, string.Create(CultureInfo.InvariantCulture, $"seed {seed}, trial {trial}: {_kinds[kind]}"));
            }
        }
    }

    public void Dispose() => _foreign.Dispose();

    private int HashCode(int trial, int attempt) => unchecked((seed * 31) + (trial * 7919) + (attempt * 104_729));

    private byte[] Make(int kind, Random chance)
    {
        var place = chance.Next(original.Length);
        var end = Math.Min(original.Length, place + chance.Next(1, 64));
        return kind switch
        {
            0 => Changed(original, place, bytes => bytes[0] ^= (byte)(1 << chance.Next(8))),
            1 => [.. original[..place], .. Bytes(chance, end - place), .. original[end..]],
            2 => [.. original[..place], .. original[end..]],
            3 => [.. original[..place], .. Bytes(chance, chance.Next(1, 64)), .. original[place..]],
            4 => [.. original[..end], .. original[place..]],
            5 => Exchanged(chance),
            6 => original[..place],
            7 => [.. original, .. Bytes(chance, chance.Next(1, 64))],
            8 => WithRevision(ShownAnew(chance)),
            9 => WithRevision(AttachedAnew(chance)),
            10 => LedRound(WithRevision(ShownAnew(chance)), chance),
            11 => Reattached(chance),
            12 => WithRange(original, chance),
            13 => WithSignature((byte[])original.Clone(), SignatureOf(other)),
            14 => Resealed((byte[])original.Clone(), _foreign),
            15 => InTheLaboratorysName(chance),
            16 => Halves(chance),
            17 => WrittenInAnotherWay(chance),
            18 => [.. Bytes(chance, chance.Next(0, 9)), .. "%PDF-1.7\n"u8, .. original],
            19 => [.. original, .. chance.Next(2) == 0 ? other : original],
            20 => Resealed(Changed(original, chance.Next(original.Length - 64), bytes => chance.NextBytes(bytes[..chance.Next(1, 64)])), _foreign),
            _ => Resealed(Restructured(chance), _foreign),
        };
    }

    /// <summary>The first page shows other words: a new page object that an added table of objects puts in the place of the old one.</summary>
    private IReadOnlyList<(int Number, string Text)> ShownAnew(Random chance)
    {
        var objects = PdfObjects.Read(original);
        var page = objects.All.First(one => one.Text.StartsWith("<</Type/Page/", StringComparison.Ordinal));
        var words = string.Create(CultureInfo.InvariantCulture, $"BT /F0 12 Tf 60 {chance.Next(100, 700)} Td (All results conform, {chance.Next()}) Tj ET");
        var contents = objects.All.Max(one => one.Number) + 1;
        return
        [
            (page.Number, System.Text.RegularExpressions.Regex.Replace(page.Text, "/Contents [0-9]+ 0 R", FormattableString.Invariant($"/Contents {contents} 0 R"), System.Text.RegularExpressions.RegexOptions.None, TimeSpan.FromSeconds(5))),
            (contents, FormattableString.Invariant($"<</Length {words.Length}>>\nstream\n{words}\nendstream")),
        ];
    }

    private IReadOnlyList<(int Number, string Text)> AttachedAnew(Random chance)
    {
        var twin = PdfObjects.Read(original).All.Single(one => one.Text.StartsWith("<</Type/EmbeddedFile", StringComparison.Ordinal));
        var json = FormattableString.Invariant($"{{\"number\":\"C-26-{chance.Next(99_999):00000}\"}}");
        return [(twin.Number, FormattableString.Invariant($"<</Type/EmbeddedFile/Subtype/application#2Fjson/Length {json.Length}>>\nstream\n{json}\nendstream"))];
    }

    /// <summary>An incremental update (ISO 32000-1, 7.5.6) as any editor writes it.</summary>
    private byte[] WithRevision(IReadOnlyList<(int Number, string Text)> changed)
    {
        var objects = PdfObjects.Read(original);
        var added = new StringBuilder("\n");
        var table = new StringBuilder("xref\n");
        foreach (var (number, text) in changed)
        {
            table.Append(CultureInfo.InvariantCulture, $"{number} 1\n{original.Length + added.Length:0000000000} 00000 n \n");
            added.Append(CultureInfo.InvariantCulture, $"{number} 0 obj\n{text}\nendobj\n");
        }

        var start = original.Length + added.Length;
        var size = Math.Max(objects.All.Max(one => one.Number), changed.Max(one => one.Number)) + 1;
        var earlier = Encoding.Latin1.GetString(original).LastIndexOf("xref\n0 ", StringComparison.Ordinal);
        return [.. original, .. Encoding.Latin1.GetBytes(FormattableString.Invariant($"{added}{table}trailer\n<</Root {objects.Root} 0 R/Info {objects.Info} 0 R/Size {size}/Prev {earlier}>>\nstartxref\n{start}\n%%EOF\n"))];
    }

    /// <summary>The byte range is written anew for the longer file, or the end is left as it was.</summary>
    private static byte[] LedRound(byte[] longer, Random chance)
    {
        var (begin, end) = Gap(longer);
        var range = chance.Next(3) switch
        {
            0 => PdfSeal.RangeText(begin, end, longer.Length),
            1 => PdfSeal.RangeText(begin, longer.Length - 1, longer.Length),
            _ => PdfSeal.RangeText(begin, end + chance.Next(longer.Length - end), longer.Length),
        };
        return At(longer, RangePlace(longer), range);
    }

    /// <summary>Another twin of the same length in the old one's place, and its hash in the place of the old one's.</summary>
    private byte[] Reattached(Random chance)
    {
        var objects = PdfObjects.Read(original);
        var stored = objects.All.Single(one => one.Text.StartsWith("<</Type/EmbeddedFile", StringComparison.Ordinal)).Stream!;
        var twin = Encoding.UTF8.GetBytes(FormattableString.Invariant($"{{\"number\":\"C-26-{chance.Next(99_999):00000}\"}}"));
        byte[] packed = [.. PdfObjects.Compress(twin), .. new byte[stored.Length]];
        var file = (byte[])original.Clone();
        packed.AsSpan(0, stored.Length).CopyTo(file.AsSpan(file.AsSpan().IndexOf(stored)));
        var hash = file.AsSpan().IndexOf("/ContentHash("u8) + "/ContentHash(".Length;
        return At(file, hash, Convert.ToHexStringLower(SHA256.HashData(twin)));
    }

    private static byte[] WithRange(byte[] file, Random chance)
    {
        var (begin, end) = Gap(file);
        var range = chance.Next(4) switch
        {
            0 => FormattableString.Invariant($"/ByteRange[0 {chance.Next(file.Length):0000000000} {chance.Next(file.Length):0000000000} {chance.Next(file.Length):0000000000}]"),
            1 => FormattableString.Invariant($"/ByteRange[0 {begin:0000000000} {end:0000000000} {chance.Next(file.Length - end):0000000000}]"),
            2 => FormattableString.Invariant($"/ByteRange[{chance.Next(1, 10)} {begin:0000000000} {end:0000000000} {file.Length - end:0000000000}]"),
            _ => FormattableString.Invariant($"/ByteRange[0 {uint.MaxValue - chance.Next(99):0000000000} {uint.MaxValue:0000000000} {file.Length:0000000000}]"),
        };
        return At((byte[])file.Clone(), RangePlace(file), range);
    }

    /// <summary>The laboratory's certificate stands in the message, but who signed had another key.</summary>
    private byte[] InTheLaboratorysName(Random chance)
    {
        using var stolen = ECDsa.Create(ECCurve.NamedCurves.nistP256);
        using var name = new SealKey(stolen, System.Security.Cryptography.X509Certificates.X509CertificateLoader.LoadCertificate(laboratory.RawData));
        var file = Changed(original, chance.Next(original.Length), bytes => bytes[0] ^= 1);
        return Resealed(chance.Next(2) == 0 ? file : (byte[])original.Clone(), name);
    }

    private byte[] Halves(Random chance)
    {
        var (first, second) = chance.Next(2) == 0 ? (original, other) : (other, original);
        var place = chance.Next(Math.Min(first.Length, second.Length));
        return chance.Next(2) == 0 ? [.. first[..place], .. second[place..]] : [.. first[..place], .. second[Math.Min(second.Length, chance.Next(second.Length))..]];
    }

    /// <summary>The same two numbers in other bytes, or the other number that holds as well (r, n - s).</summary>
    private byte[] WrittenInAnotherWay(Random chance)
    {
        var (begin, _) = Gap(original);
        var file = (byte[])original.Clone();
        var message = SignatureOf(original);
        var length = MessageLength(message);
        // The signature of the signer is the last thing in the message: an octet string with a sequence of two numbers.
        var at = FindAlgorithm(message, length);
        var octets = at + 10;
        var signature = message[(octets + 2)..length];
        var (r, s) = SignatureForm.Read(signature);
        switch (chance.Next(4))
        {
            case 0:
                return WithSignature(file, Spliced(message, octets, length, SignatureForm.Write(r, SignatureForm.Order - s)));
            case 1:
                return WithSignature(file, Spliced(message, octets, length, SignatureForm.Write(r, s + SignatureForm.Order)));
            case 2:
                return WithSignature(file, [.. message[..length], .. Bytes(chance, 3), .. new byte[message.Length - length - 3]]);
            default:
                var letter = begin + 1;
                letter += file.AsSpan(letter).IndexOfAnyInRange((byte)'a', (byte)'f');
                file[letter] -= 32;
                return file;
        }
    }

    private static int FindAlgorithm(byte[] message, int length)
    {
        ReadOnlySpan<byte> ecdsaWithSha256 = [0x06, 0x08, 0x2A, 0x86, 0x48, 0xCE, 0x3D, 0x04, 0x03, 0x02];
        return message.AsSpan(0, length).LastIndexOf(ecdsaWithSha256);
    }

    /// <summary>The message with another signature, all lengths around it put right.</summary>
    private static byte[] Spliced(byte[] message, int octets, int length, byte[] signature)
    {
        byte[] longer = [.. message[..octets], 4, (byte)signature.Length, .. signature];
        var change = longer.Length - length;
        // From the outside in: message, [0], SignedData, signer infos, signer info.
        foreach (var place in Enclosing(message, octets))
        {
            var value = ((message[place] << 8) | message[place + 1]) + change;
            (longer[place], longer[place + 1]) = ((byte)(value >> 8), (byte)value);
        }

        var padded = new byte[message.Length];
        longer.CopyTo(padded, 0);
        return padded;
    }

    /// <summary>Where the two-byte lengths stand of everything that encloses a place.</summary>
    private static List<int> Enclosing(byte[] message, int place)
    {
        var found = new List<int>();
        var at = 0;
        while (at < place)
        {
            var (header, size) = Header(message, at);
            if (at + header + size <= place)
            {
                at += header + size;
                continue;
            }

            if (header == 4)
            {
                found.Add(at + 2);
            }

            at += header;
        }

        return found;
    }

    private static (int Header, int Size) Header(byte[] message, int at) => message[at + 1] switch
    {
        0x82 => (4, (message[at + 2] << 8) | message[at + 3]),
        0x81 => (3, message[at + 2]),
        var size => (2, size),
    };

    private static int MessageLength(byte[] message)
    {
        var (header, size) = Header(message, 0);
        return header + size;
    }

    /// <summary>Digits and words by which a reader finds its way, changed at random.</summary>
    private byte[] Restructured(Random chance)
    {
        string[] words = ["startxref\n", "trailer\n", "xref\n0 ", "/Root ", "/Info ", "/Length ", " 0 obj\n", "endobj", "stream\n", "/Type/EmbeddedFile", "/ContentHash(", " 00000 n"];
        string[] others = ["9", "0", "2147483647", "4294967296", "\n", " ", "-1", ""];
        var file = (byte[])original.Clone();
        for (var change = chance.Next(1, 4); change > 0; change--)
        {
            var word = Encoding.ASCII.GetBytes(words[chance.Next(words.Length)]);
            var place = chance.Next(2) == 0 ? file.AsSpan().LastIndexOf(word) : file.AsSpan().IndexOf(word);
            var by = Encoding.ASCII.GetBytes(others[chance.Next(others.Length)]);
            var (_, end) = Gap(file);
            place = place < 0 ? end : chance.Next(2) == 0 ? place : place + word.Length;
            place = Math.Min(place, file.Length - by.Length);
            by.CopyTo(file, place);
        }

        return file;
    }

    private byte[] Exchanged(Random chance)
    {
        var places = new[] { chance.Next(original.Length), chance.Next(original.Length), chance.Next(original.Length), chance.Next(original.Length) }.Order().ToArray();
        return [.. original[..places[0]], .. original[places[2]..places[3]], .. original[places[1]..places[2]], .. original[places[0]..places[1]], .. original[places[3]..]];
    }

    /// <summary>The file signed as a whole by a key, where it still has a byte range and room for a signature.</summary>
    internal static byte[] Resealed(byte[] file, SealKey key)
    {
        var begin = file.AsSpan().LastIndexOf("/Contents<"u8) + "/Contents<".Length - 1;
        var range = RangePlace(file);
        var end = begin + PdfSeal.SignatureDigits + 2;
        if (range < 0 || begin < 0 || end >= file.Length)
        {
            return file;
        }

        At(file, range, PdfSeal.RangeText(begin, end, file.Length));
        var message = Signing.Sign(key, PdfSeal.Digest(file, begin, end));
        return WithSignature(file, begin, [.. message, .. new byte[(PdfSeal.SignatureDigits / 2) - message.Length]]);
    }

    private static byte[] WithSignature(byte[] file, byte[] message) => WithSignature(file, Gap(file).Begin, message);

    private static byte[] WithSignature(byte[] file, int begin, byte[] message) => At(file, begin + 1, Convert.ToHexStringLower(message));

    private static byte[] SignatureOf(byte[] file)
    {
        var (begin, end) = Gap(file);
        return Convert.FromHexString(Encoding.ASCII.GetString(file.AsSpan()[(begin + 1)..(end - 1)]));
    }

    private static int RangePlace(byte[] file) => file.AsSpan().LastIndexOf("/ByteRange["u8);

    private static (int Begin, int End) Gap(byte[] file)
    {
        var begin = file.AsSpan().LastIndexOf("/Contents<"u8) + "/Contents<".Length - 1;
        return (begin, begin + PdfSeal.SignatureDigits + 2);
    }

    private static byte[] At(byte[] file, int place, string text)
    {
        var bytes = Encoding.ASCII.GetBytes(text);
        bytes.AsSpan(0, Math.Min(bytes.Length, file.Length - place)).CopyTo(file.AsSpan(place));
        return file;
    }

    private delegate void Change(Span<byte> bytes);

    private static byte[] Changed(byte[] file, int place, Change change)
    {
        var copy = (byte[])file.Clone();
        change(copy.AsSpan(place));
        return copy;
    }

    private static byte[] Bytes(Random chance, int count)
    {
        var bytes = new byte[count];
        chance.NextBytes(bytes);
        return bytes;
    }
}
