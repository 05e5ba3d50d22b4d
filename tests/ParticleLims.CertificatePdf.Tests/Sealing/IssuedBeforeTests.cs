using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;
using System.Text;
using ParticleLims.CertificatePdf.Sealing;
using ParticleLims.Laboratory.Certificates;
using ParticleLims.Laboratory.Record;
using Shouldly;
using Xunit;

namespace ParticleLims.CertificatePdf.Tests.Sealing;

/// <summary>Certificates that were issued by earlier versions of this program, kept as they were; each later version must still find them genuine and read them.</summary>
public sealed class IssuedBeforeTests
{
    /// <summary>The file (format-1 with the first form of the seal, seal-2 with the second), SHA-256 of its bytes and the content hash that its page prints, as they were on the day of issue; its language and how the page names the hash.</summary>
    public static TheoryData<string, string, string, string, string> Kept => new()
    {
        { "format-1", "0325a816bc4e778af72a63cd6db8055d46320b1df5cc4120c20a70cf98de86ff", "72b6b82d42baa64f9fab904c9e5586baaafbd86526face9b64cc1354d27e32fa", "de", "PrüfsummedesInhalts:" },
        { "seal-2", "fccf632413ac2907d75e01ee0c6b6ea9bafba1f407335147a6b4e53b3c693ab3", "f48cbc4440e8c2fa82765db2d2b2923232ce15c112d9c61c58edaa767ae6de32", "en", "Hashofthecontent:" },
    };

    [Theory]
    [MemberData(nameof(Kept))]
    public void It_is_still_genuine_and_reads_the_same(string name, string fileHash, string contentHash, string language, string label)
    {
        var file = File.ReadAllBytes(Place(name + ".pdf"));
        Convert.ToHexStringLower(SHA256.HashData(file)).ShouldBe(fileHash);
        var found = SealCheck.Check(file, [X509Certificate2.CreateFromPem(File.ReadAllText(Place(name + ".certificate.pem")))]);
        (found.Outcome, found.ContentHash).ShouldBe((SealOutcome.Genuine, contentHash));
        var twin = Encoding.UTF8.GetString(found.Twin!);
        var content = CertificateIssue.ReadContent(twin);
        (content.Number, content.Language, content.Results.Count, content.Measurements!.Runs.Count).ShouldBe(("C-26-00042", language, 4, 2));
        RecordChain.HashOf(CertificateIssue.WriteContent(content)).ShouldBe(contentHash, "the form of version 1 has not changed");
        using var read = UglyToad.PdfPig.PdfDocument.Open(file);
        PrintedPages.WithoutSpaces(read.GetPage(1).Text).ShouldContain(label + contentHash);
    }

    private static string Place(string name) => Path.Combine(AppContext.BaseDirectory, "Issued", name);
}
