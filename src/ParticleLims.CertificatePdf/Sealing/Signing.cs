using System.Formats.Asn1;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;

namespace ParticleLims.CertificatePdf.Sealing;

/// <summary>A signature that holds.</summary>
/// <param name="Certificate">Whose key made it.</param>
/// <param name="InOneForm">Whether it is the one of its two equally valid numbers that <see cref="SealKey"/> writes.</param>
internal sealed record Signed(X509Certificate2 Certificate, bool InOneForm);

/// <summary>
/// A detached signature as CMS SignedData (RFC 5652) with the attributes of a PAdES baseline signature (ETSI EN 319 142-1): content type, digest and the
/// signing certificate (RFC 5035). It is written in one way only, so that whoever checks it can write it again and compare every byte.
/// </summary>
internal static class Signing
{
    private const string Data = "1.2.840.113549.1.7.1";
    private const string SignedData = "1.2.840.113549.1.7.2";
    private const string ContentType = "1.2.840.113549.1.9.3";
    private const string MessageDigest = "1.2.840.113549.1.9.4";
    private const string SigningCertificateV2 = "1.2.840.113549.1.9.16.2.47";
    private const string Sha256 = "2.16.840.1.101.3.4.2.1";
    private const string EcdsaWithSha256 = "1.2.840.10045.4.3.2";
    private static readonly Asn1Tag _zero = new(TagClass.ContextSpecific, 0);

    /// <summary>Signs a SHA-256 digest.</summary>
    public static byte[] Sign(SealKey key, ReadOnlySpan<byte> digest)
    {
        var signature = key.Sign(Attributes(key.Certificate, digest, Asn1Tag.SetOf));
        return Message(key.Certificate, digest, signature);
    }

    /// <summary>Whose key signed this digest; null when the message is not exactly what <see cref="Sign"/> writes, or the signature does not hold.</summary>
    public static Signed? Check(ReadOnlyMemory<byte> message, ReadOnlySpan<byte> digest)
    {
        try
        {
            var (certificate, signature) = Parts(message);
            using var key = certificate.GetECDsaPublicKey();
            if (key is not null && Message(certificate, digest, signature).AsSpan().SequenceEqual(message.Span) && SignatureForm.IsPlain(signature)
                && key.VerifyData(Attributes(certificate, digest, Asn1Tag.SetOf), signature, HashAlgorithmName.SHA256, DSASignatureFormat.Rfc3279DerSequence))
            {
                return new Signed(certificate, SignatureForm.IsLower(signature));
            }

            certificate.Dispose();
            return null;
        }
        catch (Exception broken) when (broken is AsnContentException or CryptographicException or ArgumentException)
        {
            return null;
        }
    }

    private static (X509Certificate2 Certificate, byte[] Signature) Parts(ReadOnlyMemory<byte> message)
    {
        var signedData = new AsnReader(message, AsnEncodingRules.DER).ReadSequence();
        signedData.ReadObjectIdentifier();
        var inner = signedData.ReadSequence(_zero).ReadSequence();
        inner.ReadInteger();
        inner.ReadSetOf();
        inner.ReadSequence();
        var certificate = X509CertificateLoader.LoadCertificate(inner.ReadSetOf(_zero).ReadEncodedValue().Span);
        var signer = inner.ReadSetOf().ReadSequence();
        signer.ReadInteger();
        signer.ReadSequence();
        signer.ReadSequence();
        signer.ReadSetOf(_zero);
        signer.ReadSequence();
        return (certificate, signer.ReadOctetString());
    }

    private static byte[] Message(X509Certificate2 certificate, ReadOnlySpan<byte> digest, byte[] signature)
    {
        var writer = new AsnWriter(AsnEncodingRules.DER);
        using (writer.PushSequence())
        {
            writer.WriteObjectIdentifier(SignedData);
            using (writer.PushSequence(_zero))
            using (writer.PushSequence())
            {
                writer.WriteInteger(1);
                using (writer.PushSetOf())
                {
                    WriteAlgorithm(writer, Sha256);
                }

                WriteAlgorithm(writer, Data);
                using (writer.PushSetOf(_zero))
                {
                    writer.WriteEncodedValue(certificate.RawData);
                }

                using (writer.PushSetOf())
                {
                    WriteSigner(writer, certificate, digest, signature);
                }
            }
        }

        return writer.Encode();
    }

    private static void WriteSigner(AsnWriter writer, X509Certificate2 certificate, ReadOnlySpan<byte> digest, byte[] signature)
    {
        using (writer.PushSequence())
        {
            writer.WriteInteger(1);
            WriteIssuerAndSerial(writer, certificate, general: false);
            WriteAlgorithm(writer, Sha256);
            writer.WriteEncodedValue(Attributes(certificate, digest, _zero));
            WriteAlgorithm(writer, EcdsaWithSha256);
            writer.WriteOctetString(signature);
        }
    }

    /// <summary>What is signed: the attributes in the order that DER gives them.</summary>
    private static byte[] Attributes(X509Certificate2 certificate, ReadOnlySpan<byte> digest, Asn1Tag tag)
    {
        var writer = new AsnWriter(AsnEncodingRules.DER);
        var octets = digest.ToArray();
        using (writer.PushSetOf(tag))
        {
            WriteAttribute(writer, ContentType, value => value.WriteObjectIdentifier(Data));
            WriteAttribute(writer, MessageDigest, value => value.WriteOctetString(octets));
            WriteAttribute(writer, SigningCertificateV2, value => WriteSigningCertificate(value, certificate));
        }

        return writer.Encode();
    }

    private static void WriteAttribute(AsnWriter writer, string type, Action<AsnWriter> write)
    {
        using (writer.PushSequence())
        {
            writer.WriteObjectIdentifier(type);
            using (writer.PushSetOf())
            {
                write(writer);
            }
        }
    }

    private static void WriteSigningCertificate(AsnWriter writer, X509Certificate2 certificate)
    {
        using (writer.PushSequence())
        using (writer.PushSequence())
        using (writer.PushSequence())
        {
            // SHA-256 is the default of the structure and therefore not named (RFC 5035).
            writer.WriteOctetString(SHA256.HashData(certificate.RawData));
            WriteIssuerAndSerial(writer, certificate, general: true);
        }
    }

    private static void WriteIssuerAndSerial(AsnWriter writer, X509Certificate2 certificate, bool general)
    {
        using (writer.PushSequence())
        {
            if (general)
            {
                using (writer.PushSequence())
                using (writer.PushSequence(new Asn1Tag(TagClass.ContextSpecific, 4)))
                {
                    writer.WriteEncodedValue(certificate.IssuerName.RawData);
                }
            }
            else
            {
                writer.WriteEncodedValue(certificate.IssuerName.RawData);
            }

            writer.WriteInteger(certificate.SerialNumberBytes.Span);
        }
    }

    private static void WriteAlgorithm(AsnWriter writer, string algorithm)
    {
        using (writer.PushSequence())
        {
            writer.WriteObjectIdentifier(algorithm);
        }
    }
}
