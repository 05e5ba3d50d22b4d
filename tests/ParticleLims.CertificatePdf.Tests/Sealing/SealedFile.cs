using ParticleLims.CertificatePdf.Sealing;
using ParticleLims.Laboratory.Certificates;

namespace ParticleLims.CertificatePdf.Tests.Sealing;

/// <summary>A certificate as it is issued.</summary>
internal static class SealedFile
{
    private static readonly Lazy<byte[]> _typical = new(() => Of(Certificates.Typical));

    /// <summary>A copy of its own for each who asks.</summary>
    public static byte[] Typical => [.. _typical.Value];

    public static byte[] Of(CertificateContent content) => Certificates.Writer.DrawSealed(content, CertificateIssue.WriteContent(content));

    public static SealOutcome Outcome(byte[] file) => SealCheck.Check(file, Certificates.Keys.Certificates()).Outcome;
}
