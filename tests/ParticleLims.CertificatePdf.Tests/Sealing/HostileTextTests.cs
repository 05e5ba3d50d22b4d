using System.Text;
using ParticleLims.CertificatePdf.Sealing;
using ParticleLims.Laboratory.Certificates;
using Shouldly;
using Xunit;

namespace ParticleLims.CertificatePdf.Tests.Sealing;

/// <summary>Texts that mean something to a PDF, a browser, a spreadsheet, a shell or a file system stand in every place that people fill in, and are only text.</summary>
public sealed class HostileTextTests
{
    [Theory]
    [InlineData("</x:xmpmeta><script>alert(1)</script>&amp;")]
    [InlineData("=HYPERLINK(\"http://x.example\",\"click\")")]
    [InlineData(") >> endobj 99 0 obj << /JS (app.alert(1)) /S /JavaScript >> endobj (")]
    [InlineData("stream\nendstream\nendobj\nstartxref\n0\n%%EOF")]
    [InlineData("/ByteRange[0 0000000001 0000000002 0000000003]/Contents<00>/Type/EmbeddedFile")]
    [InlineData("../../etc/passwd\\..\\..\\x\0y")]
    [InlineData("GC\u202E54-\u2066evil\u2069\u200Blot")]
    [InlineData("$(reboot) `id` '; DROP TABLE certificates; --")]
    public void They_are_printed_and_attached_as_text_and_the_file_stays_whole(string hostile)
    {
        var content = Everywhere(hostile);
        var twin = CertificateIssue.WriteContent(content);
        var file = Certificates.Writer.DrawSealed(content, twin);
        var found = SealCheck.Check(file, Certificates.Keys.Certificates());
        found.Outcome.ShouldBe(SealOutcome.Genuine);
        Encoding.UTF8.GetString(found.Twin!).ShouldBe(twin);

        using var read = UglyToad.PdfPig.PdfDocument.Open(file);
        var text = string.Concat(read.GetPages().Select(page => page.Text));
        text.ShouldNotContain("\u202E");
        text.ShouldNotContain("\u2066");
        read.Advanced.TryGetEmbeddedFiles(out var attached).ShouldBeTrue();
        attached!.ShouldHaveSingleItem().Name.ShouldAllBe(letter => char.IsAsciiLetterOrDigit(letter) || letter == '-' || letter == '.');
        PdfObjects.Read(file).All.ShouldAllBe(one => !one.Text.Contains("/S/JavaScript", StringComparison.Ordinal) && !one.Text.Contains("/OpenAction", StringComparison.Ordinal));
    }

    private static CertificateContent Everywhere(string text) => Certificates.Typical with
    {
        Number = "C-26-00042" + text,
        Replaces = text,
        Issuer = new(text, [text, text], text),
        Customer = new(text, [text], text),
        Product = new(text, text, text, null, text, text),
        Sample = Certificates.Typical.Sample with { Code = text, Description = text, ConditionOnReceipt = text, TakenBy = text, SamplingWay = text },
        Specification = new(text, text, 1, new DateOnly(2026, 1, 1)),
        Method = new(text, text, 1, new DateOnly(2026, 1, 1)),
        Results = [new(text, text, text, text, text, text, text)],
        Sieves = [new("20 µm", text, text, "1.000", "50.00", "50.00")],
        Conditions = [text],
        Equipment = [text],
        Remarks = [text],
        Conformity = text,
        DecisionRule = text,
        Signatures = [new(text, text, text, Certificates.Typical.IssuedAt)],
        VerifyAddress = "https://lims.tarnfell.example/verify/" + Uri.EscapeDataString(text),
    };
}
