using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Certificates;
using ParticleLims.Laboratory.EquipmentFailures;
using ParticleLims.Laboratory.Lots;
using ParticleLims.Laboratory.Samples;
using ParticleLims.Laboratory.Sieves;

namespace ParticleLims.Laboratory.Tests.Certificates;

/// <summary>One certificate speaks of two lots: whatever happens to one of them happens to the certificate.</summary>
public sealed class SeveralSamplesTests
{
    private const string Why = "As the notes of the day say";

    [Theory]
    [EachDatabase]
    public async Task It_states_each_sample_for_itself_and_is_found_by_each_lot(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (small, quality) = (laboratory.Small, laboratory.Small.People.QualityManager.Actor);
        var (first, second) = await TwoAsync(small);
        (await small.Get<SamplesToCertify>().AllAsync(quality, 10, default)).Select(one => one.LotNumber).ShouldBe([first.Number, second.Number], ignoreOrder: true);
        var id = await IssueAsync(small, second.Sample.Id, first.Sample.Id);

        await using var data = laboratory.Data();
        var stored = await data.Certificates.SingleAsync(one => one.Id == id);
        var content = CertificateIssue.ReadContent(stored);
        content.FormatVersion.ShouldBe(2);
        content.Items.Select(item => (item.Product.LotNumber, item.Sample.Code)).ShouldBe([(second.Number, second.Sample.Code), (first.Number, first.Sample.Code)], "in the order chosen");
        content.Items.ShouldAllBe(item => item.Results.Count > 0 && item.Measurements != null && item.Conformity.Length > 0);
        content.Overall.ShouldBe("All results listed of all 2 samples conform to their specifications.");
        content.Signatures.Select(one => one.Meaning).Distinct().Count().ShouldBe(content.Signatures.Count, "who did the same for both stands once");
        (stored.LotNumber, stored.ProductCode).ShouldBe(($"{second.Number}, {first.Number}", content.Product.Code));
        var shelf = small.Get<CertificateShelf>();
        foreach (var lot in (NumberedLot[])[first, second])
        {
            (await shelf.AllAsync(quality, lot.Id, null, 10, default)).ShouldHaveSingleItem().Id.ShouldBe(id);
            (await shelf.AllAsync(quality, null, lot.Number, 10, default)).ShouldHaveSingleItem().Id.ShouldBe(id);
        }

        (await shelf.LotsAsync(quality, id, default)).Select(lot => lot.Number).ShouldBe([second.Number, first.Number]);
        (await small.Get<SamplesToCertify>().AllAsync(quality, 10, default)).ShouldBeEmpty();
    }

    [Theory]
    [EachDatabase]
    public async Task No_sample_gets_a_second_certificate_and_a_revision_speaks_of_the_same_samples(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (small, quality) = (laboratory.Small, laboratory.Small.People.QualityManager.Actor);
        var (first, second) = await TwoAsync(small);
        var id = await IssueAsync(small, first.Sample.Id, second.Sample.Id);
        await laboratory.ShouldRefuseAsync("certificate-issued", () => IssueAsync(small, second.Sample.Id));
        await laboratory.ShouldRefuseAsync("certificate-issued", () => small.Desk.IssueAsync(second.Id, second.Sample.Id));
        var revised = await small.Get<CertificateIssue>().ReviseAsync(quality, id, "The customer's address", Why, 1, null, default);
        await using var data = laboratory.Data();
        CertificateIssue.ReadContent(await data.Certificates.SingleAsync(one => one.Id == revised)).Items.Select(item => item.Sample.Code).ShouldBe([first.Sample.Code, second.Sample.Code]);
        await small.Get<CertificateIssue>().WithdrawAsync(quality, revised, Why, 1, default);
        await IssueAsync(small, second.Sample.Id);
    }

    [Theory]
    [EachDatabase]
    public async Task A_sample_waits_for_its_certificate_also_where_another_one_of_its_lot_has_one(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (small, quality) = (laboratory.Small, laboratory.Small.People.QualityManager.Actor);
        var lot = await (await small.BookInAsync(small.Calcite)).SubmitAsync(Powder.Calcite);
        var second = lot with { Sample = await small.BookInSampleAsync(lot.Id, small.Calcite) };
        var waiting = small.Get<SamplesToCertify>();
        await (await second.SubmitAsync(Powder.Calcite)).AcceptAsync();
        await lot.AcceptAsync();
        (await waiting.OfLotAsync(quality, lot.Id, default)).ShouldBeEmpty("the lot is not released");
        await small.Desk.ReleaseAsync(lot.Id);
        await (await small.BookInAsync(small.Calcite)).ReleaseAsync(Powder.Calcite);
        (await waiting.OfLotAsync(quality, lot.Id, default)).Select(one => one.SampleId).ShouldBe([lot.Sample.Id, second.Sample.Id], ignoreOrder: true);
        await small.Desk.IssueAsync(lot.Id, lot.Sample.Id);
        (await waiting.OfLotAsync(quality, lot.Id, default)).ShouldHaveSingleItem().SampleId.ShouldBe(second.Sample.Id);
        await small.Desk.IssueAsync(lot.Id, second.Sample.Id);
        (await waiting.OfLotAsync(quality, lot.Id, default)).ShouldBeEmpty();
    }

    [Theory]
    [EachDatabase]
    public async Task What_cannot_stand_on_one_certificate_is_refused_by_name(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        var (first, second) = await TwoAsync(small);
        var open = await NumberedAsync(small, await (await small.BookInAsync(small.Calcite)).SubmitAsync(Powder.Calcite));
        await laboratory.ShouldRefuseAsync("certificate-samples", () => IssueAsync(small));
        await laboratory.ShouldRefuseAsync("certificate-samples", () => IssueAsync(small, first.Sample.Id, first.Sample.Id));
        await laboratory.ShouldRefuseAsync("certificate-samples", () => IssueAsync(small, [.. Enumerable.Range(0, CertificateIssue.MostSamples + 1).Select(_ => Guid.CreateVersion7())]));
        (await laboratory.ShouldRefuseAsync("lot-not-released", () => IssueAsync(small, first.Sample.Id, open.Sample.Id))).Message.ShouldContain(open.Number);
        await using (var data = laboratory.Data())
        {
            await data.Lots.Where(lot => lot.Id == second.Id).ExecuteUpdateAsync(change => change.SetProperty(lot => lot.CustomerId, (Guid?)null));
        }

        (await laboratory.ShouldRefuseAsync("certificate-customers", () => IssueAsync(small, first.Sample.Id, second.Sample.Id))).Message.ShouldContain(second.Number);
    }

    [Theory]
    [EachDatabase]
    public async Task Opening_one_of_its_lots_again_suspends_it_until_both_are_released(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (small, desk, quality) = (laboratory.Small, laboratory.Small.Desk, laboratory.Small.People.QualityManager.Actor);
        var (first, second) = await TwoAsync(small);
        var id = await IssueAsync(small, first.Sample.Id, second.Sample.Id);
        laboratory.Running.Clock.Advance(TimeSpan.FromMinutes(1));
        await desk.AskReopeningAsync(second.Id);
        await desk.ReopenAsync(second.Id);
        (await StateAsync(laboratory, id)).ShouldBe(CertificateState.Suspended);
        (await laboratory.ShouldRefuseAsync("lot-not-released", () => small.Get<CertificateLife>().ReinstateAsync(quality, id, Why, 2, default))).Message.ShouldContain(second.Number);
        laboratory.Running.Clock.Advance(TimeSpan.FromMinutes(1));
        await desk.ReleaseAsync(second.Id);
        await small.Get<CertificateLife>().ReinstateAsync(quality, id, Why, 2, default);
    }

    [Theory]
    [EachDatabase]
    public async Task A_case_that_touches_both_lots_lifts_the_suspension_only_where_both_results_stand(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (small, quality) = (laboratory.Small, laboratory.Small.People.QualityManager);
        var (first, second) = await TwoAsync(small);
        var id = await IssueAsync(small, first.Sample.Id, second.Sample.Id);
        var failing = small.Get<EquipmentFailing>();
        var failure = await failing.MarkAsync<TestSieve>(small.People.LaboratoryManager.Actor, small.Calcite.SieveIds[0], Why, RunningLaboratory.FirstMorning, 2, null, default);
        (await StateAsync(laboratory, id)).ShouldBe(CertificateState.Suspended);
        (await small.Get<CertificateDoubts>().OpenAsync(quality.Actor, default)).ShouldHaveSingleItem().Number.ShouldNotBeEmpty();
        await failing.DecideAsync(quality.Actor, failure, first.Id, TouchedLotDecision.ResultsStand, Why, 1, default);
        await failing.DecideAsync(quality.Actor, failure, second.Id, TouchedLotDecision.SievedAgain, Why, 2, default);
        await failing.CloseAsync(quality.Actor, failure, Why, await small.ProofAsync(quality), 3, default);
        (await StateAsync(laboratory, id)).ShouldBe(CertificateState.Suspended, "one of its lots is sieved again");
    }

    private static async Task<(NumberedLot First, NumberedLot Second)> TwoAsync(SmallLaboratory small) =>
        (await NumberedAsync(small, await (await small.BookInAsync(small.Calcite)).ReleaseAsync(Powder.Calcite)), await NumberedAsync(small, await (await small.BookInAsync(small.Calcite)).ReleaseAsync(Powder.Calcite)));

    private static async Task<NumberedLot> NumberedAsync(SmallLaboratory small, TestLot lot) => new(lot.Id, (await small.Desk.EvidenceAsync(lot.Id)).Lot.Number, lot.Sample);

    private static Task<Guid> IssueAsync(SmallLaboratory small, params Guid[] samples) => small.Get<CertificateIssue>().IssueSeveralAsync(small.People.QualityManager.Actor, samples, null, default);

    private static async Task<CertificateState> StateAsync(OpenedSmallLaboratory laboratory, Guid id)
    {
        await using var data = laboratory.Data();
        return (await data.Certificates.AsNoTracking().SingleAsync(one => one.Id == id)).State;
    }

    private sealed record NumberedLot(Guid Id, string Number, SampleBookedIn Sample);
}
