using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;

namespace ParticleLims.CertificatePdf.Sealing;

/// <summary>A key of the laboratory (ECDSA on the curve P-256, FIPS 186-5) with its self-signed certificate.</summary>
public sealed class SealKey : IDisposable
{
    private const int Years = 30;
    private readonly Lock _oneAtATime = new();
    private readonly ECDsa _private;

    internal SealKey(ECDsa key, X509Certificate2 certificate) => (_private, Certificate) = (key, certificate);

    /// <summary>The public part, which anybody may have.</summary>
    public X509Certificate2 Certificate { get; }

    /// <summary>By what a person compares keys: SHA-256 of the certificate, hexadecimal in groups of four.</summary>
    public string Fingerprint => FingerprintOf(Certificate);

    /// <summary>By what a person compares keys: SHA-256 of the certificate, hexadecimal in groups of four.</summary>
    public static string FingerprintOf(X509Certificate2 certificate)
    {
        ArgumentNullException.ThrowIfNull(certificate);
        return string.Join(' ', Convert.ToHexStringLower(SHA256.HashData(certificate.RawData)).Chunk(4).Select(group => new string(group)));
    }

    /// <summary>Signs a text on its own, such as a head of the record; its first words say what it is, so that the signature fits nothing else.</summary>
    /// <returns>ECDSA with SHA-256, as DER.</returns>
    public byte[] SignText(string text) => Sign(System.Text.Encoding.UTF8.GetBytes(text));

    /// <summary>Whether a signature over a text was made by the key of this certificate.</summary>
    public static bool IsOver(string text, byte[] signature, X509Certificate2 certificate)
    {
        ArgumentNullException.ThrowIfNull(certificate);
        using var key = certificate.GetECDsaPublicKey();
        return key?.VerifyData(System.Text.Encoding.UTF8.GetBytes(text), signature, HashAlgorithmName.SHA256, DSASignatureFormat.Rfc3279DerSequence) == true;
    }

    /// <summary>The private part as PKCS #8, for the folder of the keys alone.</summary>
    internal string Export() => _private.ExportPkcs8PrivateKeyPem();

    internal byte[] Sign(byte[] data)
    {
        lock (_oneAtATime)
        {
            return SignatureForm.Lower(_private.SignData(data, HashAlgorithmName.SHA256, DSASignatureFormat.Rfc3279DerSequence));
        }
    }

    internal static SealKey Make(string owner, DateTimeOffset now)
    {
        var key = ECDsa.Create(ECCurve.NamedCurves.nistP256);
        var name = new X500DistinguishedNameBuilder();
        name.AddCommonName(Short(owner));
        var request = new CertificateRequest(name.Build(), key, HashAlgorithmName.SHA256);
        request.CertificateExtensions.Add(new X509BasicConstraintsExtension(certificateAuthority: false, hasPathLengthConstraint: false, 0, critical: true));
        request.CertificateExtensions.Add(new X509KeyUsageExtension(X509KeyUsageFlags.DigitalSignature | X509KeyUsageFlags.NonRepudiation, critical: true));
        using var made = request.CreateSelfSigned(now.AddDays(-1), now.AddYears(Years));
        return new SealKey(key, X509CertificateLoader.LoadCertificate(made.RawData));
    }

    internal static SealKey Read(string privatePem, string certificatePem)
    {
        var key = ECDsa.Create();
        key.ImportFromPem(privatePem);
        return new SealKey(key, X509Certificate2.CreateFromPem(certificatePem));
    }

    // A common name has at most 64 letters (X.520).
    private static string Short(string owner)
    {
        var name = string.IsNullOrWhiteSpace(owner) ? "Laboratory" : owner.Trim();
        return name.Length <= 64 ? name : name[..(char.IsHighSurrogate(name[63]) ? 63 : 64)];
    }

    /// <inheritdoc />
    public void Dispose()
    {
        _private.Dispose();
        Certificate.Dispose();
    }
}
