using ParticleLims.CertificatePdf;
using ParticleLims.CertificatePdf.Sealing;
using ParticleLims.Laboratory.Certificates;
using ParticleLims.Web.Start;
using Shouldly;
using Xunit;
using Content = ParticleLims.CertificatePdf.Tests.Certificates;

namespace ParticleLims.Web.Tests.Start;

/// <summary>The commands at the console: no server, no database, the file and the keys alone.</summary>
public sealed class SealCommandTests : IDisposable
{
    private readonly DirectoryInfo place = Directory.CreateTempSubdirectory("particlelims-commands-");

    private string File => Path.Combine(place.FullName, "certificate.pdf");

    public SealCommandTests()
    {
        using var keys = new SealKeys(Path.Combine(place.FullName, "laboratory-seal"), TimeProvider.System);
        System.IO.File.WriteAllBytes(File, new CertificatePdfWriter(keys).DrawSealed(Content.Typical, CertificateIssue.WriteContent(Content.Typical)));
    }

    [Fact]
    public async Task A_genuine_file_is_told_with_what_it_certifies()
    {
        var (status, said) = await SayAsync("verify-certificate", File, "--data", place.FullName);
        status.ShouldBe(0);
        said.ShouldContain("Genuine");
        said.ShouldContain("C-26-00042, revision 1, lot GC-26-0311, issued 2026-11-25 by Tarnfell Milling");
        said.ShouldContain(Laboratory.Record.RecordChain.HashOf(CertificateIssue.WriteContent(Content.Typical)));
    }

    [Fact]
    public async Task A_customer_checks_with_the_public_key_alone()
    {
        var key = Directory.GetFiles(Path.Combine(place.FullName, "laboratory-seal"), "*.certificate.pem").Single();
        (await SayAsync("verify-certificate", File, "--key", key)).Status.ShouldBe(0);
        var (status, said) = await SayAsync("verify-certificate", File, "--data", Path.Combine(place.FullName, "elsewhere"));
        status.ShouldBe(2);
        said.ShouldContain("the key is not known here");
    }

    [Fact]
    public async Task A_changed_file_is_refused()
    {
        var bytes = await System.IO.File.ReadAllBytesAsync(File);
        bytes[bytes.Length / 3] ^= 4;
        await System.IO.File.WriteAllBytesAsync(File, bytes);
        var (status, said) = await SayAsync("verify-certificate", File, "--data", place.FullName);
        status.ShouldBe(1);
        said.ShouldContain("CHANGED");
    }

    [Fact]
    public async Task What_cannot_be_read_cannot_be_told()
    {
        (await SayAsync("verify-certificate", Path.Combine(place.FullName, "no-such.pdf"))).Status.ShouldBe(2);
        (await SayAsync("verify-certificate", File, "--key", File)).Status.ShouldBe(2);
        (await SayAsync("verify-certificate")).Said.ShouldContain("verify-certificate FILE");
    }

    [Theory]
    [InlineData("{}")]
    [InlineData("null")]
    [InlineData("no JSON")]
    public async Task Anything_sealed_by_anybody_is_answered(string twin)
    {
        using var others = new SealKeys(null, TimeProvider.System);
        await System.IO.File.WriteAllBytesAsync(File, new CertificatePdfWriter(others).DrawSealed(Content.Typical, twin));
        var (status, said) = await SayAsync("verify-certificate", File, "--data", place.FullName);
        status.ShouldBe(2);
        said.ShouldContain("the key is not known here");
        said.ShouldContain("its content cannot be read by this program");
    }

    [Fact]
    public async Task What_steers_a_console_is_not_passed_on()
    {
        using var others = new SealKeys(null, TimeProvider.System);
        var content = Content.Typical with { Number = "C-1\u001b[2J\nGenuine", Issuer = Content.Typical.Issuer with { Name = "A\u001b]0;x\u0007" } };
        await System.IO.File.WriteAllBytesAsync(File, new CertificatePdfWriter(others).DrawSealed(content, CertificateIssue.WriteContent(content)));
        var (status, said) = await SayAsync("verify-certificate", File, "--data", place.FullName);
        status.ShouldBe(2);
        said.ShouldNotContain("\u001b");
        said.ShouldNotContain("\u0007");
        said.Split('\n').ShouldAllBe(line => !line.StartsWith("Genuine"));
    }

    [Fact]
    public async Task A_file_far_larger_than_a_certificate_is_not_read_to_its_end()
    {
        await using (var large = System.IO.File.Create(File))
        {
            large.SetLength(SealCheck.LargestFile + 2L);
        }

        (await SayAsync("verify-certificate", File, "--data", place.FullName)).Status.ShouldBe(1);
    }

    [Fact]
    public async Task After_a_new_key_the_old_file_is_still_genuine()
    {
        (await SayAsync("new-seal-key", "Tarnfell Milling", "--data", place.FullName)).Status.ShouldBe(0);
        Directory.GetFiles(Path.Combine(place.FullName, "laboratory-seal"), "*.certificate.pem").Length.ShouldBe(2);
        (await SayAsync("verify-certificate", File, "--data", place.FullName)).Status.ShouldBe(0);
    }

    [Fact]
    public void Other_words_are_for_the_laboratory_itself() => SealCommands.Read(["--demo"]).ShouldBeNull();

    public void Dispose() => place.Delete(recursive: true);

    private static async Task<(int Status, string Said)> SayAsync(params string[] arguments)
    {
        await using var output = new StringWriter();
        var status = await SealCommands.Read(arguments)!(output);
        return (status, output.ToString());
    }
}
