using System.ComponentModel;
using System.Diagnostics;
using ParticleLims.CertificatePdf.Sealing;
using Shouldly;
using Xunit;

namespace ParticleLims.CertificatePdf.Tests.Sealing;

/// <summary>
/// What programs of other people say about an issued file, where they are installed: qpdf checks the structure, pdfsig of the poppler tools the signature. Where
/// one is missing, our own reading of the file is what can be asserted.
/// </summary>
public sealed class ForeignReaderTests : IDisposable
{
    private readonly DirectoryInfo _place = Directory.CreateTempSubdirectory("particlelims-foreign-");

    [Fact]
    public void The_structure_of_an_issued_file_has_no_fault_and_no_warning()
    {
        if (Ask("qpdf", "--check", Written(SealedFile.Typical)) is not { } said)
        {
            PdfObjects.Read(SealedFile.Typical).All.Count.ShouldBeGreaterThan(100);
            return;
        }

        said.ShouldContain("No syntax or stream encoding errors found");
        said.ShouldNotContain("WARNING");
    }

    [Fact]
    public void The_signature_is_valid_and_covers_the_whole_document()
    {
        if (Ask("pdfsig", Written(SealedFile.Typical)) is not { } said)
        {
            SealedFile.Outcome(SealedFile.Typical).ShouldBe(SealOutcome.Genuine);
            return;
        }

        said.ShouldContain("Signature is Valid.");
        said.ShouldContain("Total document signed");
        said.ShouldContain("ETSI.CAdES.detached");
        said.ShouldContain("Tarnfell Milling");
    }

    [Fact]
    public void A_changed_bit_is_seen_there_too()
    {
        var file = SealedFile.Typical;
        file[file.Length / 2] ^= 1;
        SealedFile.Outcome(file).ShouldBe(SealOutcome.Changed);
        if (Ask("pdfsig", Written(file)) is { } said)
        {
            said.ShouldNotContain("Signature is Valid.");
        }
    }

    public void Dispose() => _place.Delete(recursive: true);

    private string Written(byte[] file)
    {
        var path = Path.Combine(_place.FullName, "certificate.pdf");
        File.WriteAllBytes(path, file);
        return path;
    }

    /// <summary>What a program says; null where it is not installed.</summary>
    private static string? Ask(string program, params string[] arguments)
    {
        try
        {
            using var process = Process.Start(new ProcessStartInfo(program, arguments) { RedirectStandardOutput = true, RedirectStandardError = true, UseShellExecute = false })!;
            var faults = process.StandardError.ReadToEndAsync();
            var said = process.StandardOutput.ReadToEnd();
            process.WaitForExit();
            return said + faults.GetAwaiter().GetResult();
        }
        catch (Win32Exception)
        {
            return null;
        }
    }
}
