using BenchmarkDotNet.Attributes;
using ParticleLims.CertificatePdf;
using ParticleLims.CertificatePdf.Sealing;
using ParticleLims.Laboratory.Certificates;

namespace ParticleLims.Benchmarks.Certificates;

/// <summary>Drawing one certificate from its frozen content: one page, four sieves, the curve, the code.</summary>
public class CertificateDrawing : IDisposable
{
    private readonly SealKeys keys = new(null, TimeProvider.System);
    private CertificatePdfWriter writer = null!;
    private string twin = null!;
    private CertificateContent content = null!;

    /// <summary>Carries out, releases and issues one lot of the small laboratory.</summary>
    [GlobalSetup]
    public void SetUp()
    {
        content = CertificateIssuing.ContentAsync().GetAwaiter().GetResult();
        (writer, twin) = (new CertificatePdfWriter(keys), CertificateIssue.WriteContent(content));
    }

    /// <summary>Ends the keys.</summary>
    [GlobalCleanup]
    public void Dispose()
    {
        keys.Dispose();
        GC.SuppressFinalize(this);
    }

    /// <summary>The PDF with its twin, sealed.</summary>
    [Benchmark]
    public byte[] DrawSealed() => writer.DrawSealed(content, twin);

    /// <summary>The PDF alone.</summary>
    [Benchmark]
    public byte[] Draw() => writer.Draw(content, "9f3a51c07be2d48812aa6cfe0b7d93e64c5518f2a0d9b37e611c84fa02bd7795");
}
