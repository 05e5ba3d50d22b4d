using ParticleLims.CertificatePdf.Sealing;
using ParticleLims.Web.Heads;
using Shouldly;
using Xunit;

namespace ParticleLims.Web.Tests.Heads;

public sealed class HeadOutsideTests : IDisposable
{
    private readonly DirectoryInfo place = Directory.CreateTempSubdirectory("particlelims-heads-");
    private readonly SealKeys keys = new(null, TimeProvider.System);

    public void Dispose()
    {
        keys.Dispose();
        place.Delete(recursive: true);
    }

    [Fact]
    public async Task A_head_is_written_whole_and_never_over_another_one()
    {
        var outside = new HeadOutside(keys);
        (await outside.WriteAsync(place.FullName, "head.txt", "event 1\n", default)).ShouldBeNull();
        (await outside.WriteAsync(place.FullName, "head.txt", "event 2\n", default)).ShouldNotBeNull().ShouldContain("cannot be written");
        (await File.ReadAllTextAsync(Path.Combine(place.FullName, "head.txt"))).ShouldBe("event 1\n");
    }

    [Fact]
    public async Task A_folder_that_is_not_there_is_said_and_not_made()
    {
        var missing = Path.Combine(place.FullName, "not-mounted");
        (await new HeadOutside(keys).WriteAsync(missing, "head.txt", "event 1\n", default)).ShouldBe($"There is no folder {missing}. Is the other machine's share there?");
        Directory.Exists(missing).ShouldBeFalse();
    }

    [Fact]
    public void The_signature_is_of_the_laboratorys_key_and_of_these_lines_alone()
    {
        var signature = new HeadOutside(keys).Sign("Tarnfell Milling", "event 1\n");
        var key = keys.Current("Tarnfell Milling").Certificate;
        SealKey.IsOver("event 1\n", signature, key).ShouldBeTrue();
        SealKey.IsOver("event 2\n", signature, key).ShouldBeFalse();
        using var others = new SealKeys(null, TimeProvider.System);
        SealKey.IsOver("event 1\n", signature, others.Current("Somebody").Certificate).ShouldBeFalse();
    }
}
