using System.Formats.Asn1;
using System.Globalization;
using System.Numerics;

namespace ParticleLims.CertificatePdf.Sealing;

/// <summary>
/// The two numbers r and s of an ECDSA signature on P-256, as DER. Where (r, s) holds, (r, n - s) holds as well, so that anybody could turn a sealed file into another
/// one that is as valid: of the two, the seal is always the lower one.
/// </summary>
internal static class SignatureForm
{
    /// <summary>The order n of the curve's base point (NIST SP 800-186, 3.2.1.3).</summary>
    public static BigInteger Order { get; } = BigInteger.Parse("0FFFFFFFF00000000FFFFFFFFFFFFFFFFBCE6FAADA7179E84F3B9CAC2FC632551", NumberStyles.AllowHexSpecifier, CultureInfo.InvariantCulture);

    /// <summary>The signature with the lower of its two possible s.</summary>
    public static byte[] Lower(byte[] signature)
    {
        var (r, s) = Read(signature);
        return Write(r, BigInteger.Min(s, Order - s));
    }

    /// <summary>Whether it holds the lower of its two possible s.</summary>
    public static bool IsLower(byte[] signature)
    {
        var (_, s) = Read(signature);
        return s <= Order - s;
    }

    /// <summary>Whether it is written as it is written here, so that the same two numbers cannot stand there in another way.</summary>
    public static bool IsPlain(byte[] signature)
    {
        var (r, s) = Read(signature);
        return Write(r, s).AsSpan().SequenceEqual(signature);
    }

    /// <summary>The two numbers as DER.</summary>
    internal static byte[] Write(BigInteger r, BigInteger s)
    {
        var writer = new AsnWriter(AsnEncodingRules.DER);
        using (writer.PushSequence())
        {
            writer.WriteInteger(r);
            writer.WriteInteger(s);
        }

        return writer.Encode();
    }

    /// <summary>The two numbers.</summary>
    /// <exception cref="AsnContentException">It is no such signature.</exception>
    internal static (BigInteger R, BigInteger S) Read(byte[] signature)
    {
        var numbers = new AsnReader(signature, AsnEncodingRules.DER).ReadSequence();
        return (numbers.ReadInteger(), numbers.ReadInteger());
    }
}
