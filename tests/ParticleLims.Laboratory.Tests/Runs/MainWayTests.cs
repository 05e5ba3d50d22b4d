using ParticleLims.Laboratory.Certificates;
using ParticleLims.Laboratory.Dispositions;
using ParticleLims.Laboratory.Lots;
using ParticleLims.Laboratory.Review;

namespace ParticleLims.Laboratory.Tests.Runs;

/// <summary>From the sample to the certificate, by each procedure.</summary>
public sealed class MainWayTests
{
    [Theory]
    [EachDatabase("GC-45")]
    [EachDatabase("PS-63")]
    [EachDatabase("SB-500")]
    public async Task A_lot_goes_from_the_sample_to_the_certificate(DatabaseKind kind, string product)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        var (method, powder) = Of(small, product);
        var lotId = await small.BookInLotAsync(method);
        var sample = await small.BookInSampleAsync(lotId, method);
        sample.RunIds.Count.ShouldBe(method.Draft.Replicates);

        foreach (var runId in sample.RunIds)
        {
            await small.Bench().CarryOutAsync(runId, method, powder);
            (await LotStateAsync(laboratory, lotId)).ShouldBe(LotState.AwaitingResults);
        }

        foreach (var runId in sample.RunIds)
        {
            var view = await small.Bench(small.People.Reviewer).ViewAsync(runId);
            view.Stored!.SameBits.ShouldBeTrue();
            await small.Get<RunChanges>().OpenAsync(small.People.Reviewer.Actor, runId, default);
            await small.Get<RunReview>().AcceptAsync(small.People.Reviewer.Actor, runId, await small.ProofAsync(small.People.Reviewer), view.Run.Version, default);
        }

        (await LotStateAsync(laboratory, lotId)).ShouldBe(LotState.AwaitingDisposition);
        var manager = small.People.QualityManager;
        var evidence = (await small.Get<LotDecision>().ReadAsync(manager.Actor, lotId, default))!;
        evidence.ReleaseBlockers.ShouldBeEmpty();
        await small.Get<LotDecision>().ReleaseAsync(manager.Actor, lotId, await small.ProofAsync(manager), evidence.ContentHash, default);
        (await LotStateAsync(laboratory, lotId)).ShouldBe(LotState.Released);

        var certificateId = await small.Get<CertificateIssue>().IssueAsync(manager.Actor, lotId, sample.Id, "issue-1", default);
        var file = (await small.Get<CertificateShelf>().DownloadAsync(small.People.Customer.Actor, certificateId, default))!;
        file.FileName.ShouldBe("C-26-00001.pdf");
        (await laboratory.VerifyRecordAsync()).Fault.ShouldBeNull();
    }

    private static (TestMethod Method, Powder Powder) Of(SmallLaboratory small, string product) => product switch
    {
        "GC-45" => (small.Calcite, Powder.Calcite),
        "PS-63" => (small.Starch, Powder.Starch),
        _ => (small.Spice, Powder.Spice),
    };

    private static async Task<LotState> LotStateAsync(OpenedSmallLaboratory laboratory, Guid lotId) =>
        (await laboratory.Get<LotSearch>().FindAsync(laboratory.Small.People.Reviewer.Actor, lotId, default))!.State;
}
