using ParticleLims.Laboratory.Certificates;

namespace ParticleLims.Laboratory.Tests.Certificates;

public sealed class NewestCertificateTests
{
    [Theory]
    [EachDatabase]
    public async Task The_start_finds_the_file_that_was_issued_last(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var newest = laboratory.Get<NewestCertificate>();
        (await newest.FindAsync(default)).ShouldBeNull();
        var lot = await (await laboratory.Small.BookInAsync(laboratory.Small.Calcite)).ReleaseAsync(Powder.Calcite);
        var first = await laboratory.Small.Desk.IssueAsync(lot.Id, lot.Sample.Id);
        (await newest.FindAsync(default))!.Number.ShouldBe("C-26-00001");
        laboratory.Running.Clock.Advance(TimeSpan.FromMinutes(1));
        var (quality, issuing) = (laboratory.Small.People.QualityManager.Actor, laboratory.Get<CertificateIssue>());
        var second = await issuing.ReviseAsync(quality, first, "The order's number", "The customer gave a wrong one", 1, null, default);
        var found = (await newest.FindAsync(default))!;
        found.Number.ShouldBe("C-26-00002");
        found.Pdf.ShouldBe((await laboratory.Get<CertificateShelf>().DownloadAsync(quality, second, default))!.Pdf);
    }
}
