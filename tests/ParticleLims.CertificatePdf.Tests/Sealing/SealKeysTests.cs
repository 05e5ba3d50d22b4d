using ParticleLims.CertificatePdf.Sealing;
using ParticleLims.Laboratory.Certificates;
using Shouldly;
using Xunit;

namespace ParticleLims.CertificatePdf.Tests.Sealing;

public sealed class SealKeysTests : IDisposable
{
    private readonly DirectoryInfo _place = Directory.CreateTempSubdirectory("particlelims-seal-");

    private string Folder => Path.Combine(_place.FullName, "laboratory-seal");

    [Fact]
    public void The_first_use_makes_a_key_that_the_next_start_finds()
    {
        using var first = new SealKeys(Folder, TimeProvider.System);
        using var second = new SealKeys(Folder, TimeProvider.System);
        first.Certificates().ShouldBeEmpty();
        var made = first.Current("Tarnfell Milling");
        made.Certificate.Subject.ShouldBe("CN=Tarnfell Milling");
        second.Current("Another name by then").Fingerprint.ShouldBe(made.Fingerprint);
        made.Fingerprint.ShouldMatch("^([0-9a-f]{4} ){15}[0-9a-f]{4}$");
    }

    [Fact]
    public void Only_its_owner_can_read_the_keys()
    {
        using var keys = new SealKeys(Folder, TimeProvider.System);
        keys.Current("Tarnfell Milling");
        var files = Directory.GetFiles(Folder);
        files.Length.ShouldBe(2);
        if (!OperatingSystem.IsWindows())
        {
            new DirectoryInfo(Folder).UnixFileMode.ShouldBe(UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute);
            foreach (var file in files)
            {
                File.GetUnixFileMode(file).ShouldBe(UnixFileMode.UserRead | UnixFileMode.UserWrite);
            }
        }
    }

    [Fact]
    public void After_a_rotation_old_certificates_stay_genuine_and_the_old_private_key_is_gone()
    {
        using var keys = new SealKeys(Folder, TimeProvider.System);
        var writer = new CertificatePdfWriter(keys);
        var twin = CertificateIssue.WriteContent(Certificates.Typical);
        var before = writer.DrawSealed(Certificates.Typical, twin);
        var old = keys.Current("Tarnfell Milling").Fingerprint;
        var fresh = keys.Rotate("Tarnfell Milling").Fingerprint;
        fresh.ShouldNotBe(old);
        var after = writer.DrawSealed(Certificates.Typical, twin);
        Directory.GetFiles(Folder, "*.key.pem").Length.ShouldBe(1);
        using var next = new SealKeys(Folder, TimeProvider.System);
        next.Current("Tarnfell Milling").Fingerprint.ShouldBe(fresh);
        var known = next.Certificates();
        known.Select(SealKey.FingerprintOf).ShouldBe([old, fresh]);
        SealCheck.Check(before, known).Outcome.ShouldBe(SealOutcome.Genuine);
        SealCheck.Check(after, known).Outcome.ShouldBe(SealOutcome.Genuine);
    }

    [Theory]
    [InlineData("A name of far more than the sixty-four letters that a common name may have, to the letter")]
    [InlineData("Łódź, Ελλάς \"&<>\" =CN, O=Somebody")]
    [InlineData("  ")]
    public void Any_name_of_a_laboratory_makes_a_key(string name)
    {
        using var keys = new SealKeys(null, TimeProvider.System);
        keys.Current(name).Certificate.GetNameInfo(System.Security.Cryptography.X509Certificates.X509NameType.SimpleName, forIssuer: false).ShouldBe(name.Trim().Length == 0 ? "Laboratory" : name.Length > 64 ? name[..64] : name);
    }

    public void Dispose() => _place.Delete(recursive: true);
}
