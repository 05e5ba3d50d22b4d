using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Certificates;
using ParticleLims.Laboratory.EquipmentFailures;
using ParticleLims.Laboratory.Investigations;
using ParticleLims.Laboratory.Sieves;

namespace ParticleLims.Laboratory.Tests.Certificates;

/// <summary>While a case is open that touches a certificate in force, nobody is to rely on it; closing the case says what becomes of it.</summary>
public sealed class CertificateHoldTests
{
    [Theory]
    [EachDatabase]
    public async Task A_case_of_failed_equipment_suspends_the_certificate_and_results_that_stand_bring_it_back(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (lot, id, good) = await CertifiedAsync(laboratory);
        var failure = await MarkAsync(laboratory, 0, good);
        (await StateAsync(laboratory, id)).ShouldBe((CertificateState.Suspended, "Case E-26-00001 is looked into."));
        (await laboratory.ShouldRefuseAsync("certificate-held", () => ReinstateAsync(laboratory, id))).Message.ShouldContain("while case E-26-00001 is open");
        await CloseAsync(laboratory, failure, lot, TouchedLotDecision.ResultsStand);
        (await StateAsync(laboratory, id)).ShouldBe((CertificateState.Issued, null));
    }

    [Theory]
    [EachDatabase]
    public async Task A_decision_that_does_not_let_the_results_stand_keeps_it_suspended_until_somebody_acts(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (lot, id, good) = await CertifiedAsync(laboratory);
        await CloseAsync(laboratory, await MarkAsync(laboratory, 0, good), lot, TouchedLotDecision.CustomerTold);
        (await StateAsync(laboratory, id)).State.ShouldBe(CertificateState.Suspended);
        await laboratory.Get<CertificateIssue>().WithdrawAsync(laboratory.Small.People.QualityManager.Actor, id, "The sieve had widened", (await CertificateAsync(laboratory, id)).Version, default);
        (await StateAsync(laboratory, id)).State.ShouldBe(CertificateState.Withdrawn);
    }

    [Theory]
    [EachDatabase]
    public async Task Two_cases_both_have_to_bring_it_back(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (lot, id, good) = await CertifiedAsync(laboratory);
        var (first, second) = (await MarkAsync(laboratory, 0, good), await MarkAsync(laboratory, 1, good));
        await CloseAsync(laboratory, first, lot, TouchedLotDecision.ResultsStand);
        (await StateAsync(laboratory, id)).State.ShouldBe(CertificateState.Suspended, "the other case is open");
        await CloseAsync(laboratory, second, lot, TouchedLotDecision.ResultsStand);
        (await StateAsync(laboratory, id)).State.ShouldBe(CertificateState.Issued);

        var (third, fourth) = (await MarkAsync(laboratory, 2, good), await MarkAsync(laboratory, 3, good));
        laboratory.Running.Clock.Advance(TimeSpan.FromMinutes(1));
        await CloseAsync(laboratory, third, lot, TouchedLotDecision.SievedAgain);
        laboratory.Running.Clock.Advance(TimeSpan.FromMinutes(1));
        await CloseAsync(laboratory, fourth, lot, TouchedLotDecision.ResultsStand);
        (await StateAsync(laboratory, id)).State.ShouldBe(CertificateState.Suspended, "one of the two cases kept it");
        await ReinstateAsync(laboratory, id);
        (await StateAsync(laboratory, id)).State.ShouldBe(CertificateState.Issued, "no case is open any more: a person decides");
    }

    [Theory]
    [EachDatabase]
    public async Task What_somebody_suspended_by_hand_stays_suspended_after_the_case(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (lot, id, good) = await CertifiedAsync(laboratory);
        await laboratory.Get<CertificateLife>().SuspendAsync(laboratory.Small.People.QualityManager.Actor, id, "The customer found lumps", 1, default);
        await CloseAsync(laboratory, await MarkAsync(laboratory, 0, good), lot, TouchedLotDecision.ResultsStand);
        (await StateAsync(laboratory, id)).ShouldBe((CertificateState.Suspended, "The customer found lumps"));
    }

    [Theory]
    [EachDatabase]
    public async Task Certificates_of_samples_that_the_case_does_not_touch_stay_in_force(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (_, id, _) = await CertifiedAsync(laboratory);
        laboratory.Running.Clock.Advance(TimeSpan.FromMinutes(1));
        await MarkAsync(laboratory, 0, laboratory.Running.Clock.GetUtcNow());
        (await StateAsync(laboratory, id)).State.ShouldBe(CertificateState.Issued);
    }

    [Theory]
    [EachDatabase(InvestigationConclusion.LaboratoryCause, CertificateState.Issued)]
    [EachDatabase(InvestigationConclusion.Confirmed, CertificateState.Suspended)]
    [EachDatabase(InvestigationConclusion.Inconclusive, CertificateState.Suspended)]
    public async Task A_lot_named_in_an_open_investigation_has_its_certificate_suspended_and_the_conclusion_brings_it_back_or_not(DatabaseKind kind, InvestigationConclusion conclusion, CertificateState afterwards)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (lot, id, _) = await CertifiedAsync(laboratory);
        var (small, quality) = (laboratory.Small, laboratory.Small.People.QualityManager.Actor);
        var bad = await (await small.BookInAsync(small.Calcite)).SubmitAsync(Powder.CoarseCalcite);
        await bad.AcceptAsync();
        var investigation = await small.Desk.OpenInvestigationAsync(bad.Id);
        await laboratory.Get<InvestigationWork>().AssociateAsync(small.People.Reviewer.Actor, investigation.Id, (await CertificateAsync(laboratory, id)).LotNumber, "Made on the same day", null, default);
        (await StateAsync(laboratory, id)).ShouldBe((CertificateState.Suspended, $"Case {investigation.Number} is looked into."));
        await laboratory.ShouldRefuseAsync("certificate-held", async () => await laboratory.Get<CertificateIssue>().ReviseAsync(quality, id, "The reference", "It was another order", (await CertificateAsync(laboratory, id)).Version, null, default));
        await small.Desk.ConcludeAsync(bad.Id, conclusion);
        (await StateAsync(laboratory, id)).State.ShouldBe(afterwards);
        lot.Id.ShouldNotBe(bad.Id);
    }

    private static async Task<(TestLot Lot, Guid Id, DateTimeOffset Good)> CertifiedAsync(OpenedSmallLaboratory laboratory)
    {
        var good = laboratory.Running.Clock.GetUtcNow();
        var lot = await (await laboratory.Small.BookInAsync(laboratory.Small.Calcite)).ReleaseAsync(Powder.Calcite);
        return (lot, await laboratory.Small.Desk.IssueAsync(lot.Id, lot.Sample.Id), good);
    }

    private static async Task<Guid> MarkAsync(OpenedSmallLaboratory laboratory, int sieve, DateTimeOffset good)
    {
        var id = laboratory.Small.Calcite.SieveIds[sieve];
        await using var data = laboratory.Data();
        var version = (await data.TestSieves.SingleAsync(item => item.Id == id)).Version;
        return await laboratory.Get<EquipmentFailing>().MarkAsync<TestSieve>(laboratory.Small.People.LaboratoryManager.Actor, id, "The reference check missed by 4 %", good, version, null, default);
    }

    private static async Task CloseAsync(OpenedSmallLaboratory laboratory, Guid failure, TestLot lot, TouchedLotDecision decision)
    {
        var manager = laboratory.Small.People.QualityManager;
        await laboratory.Get<EquipmentFailing>().DecideAsync(manager.Actor, failure, lot.Id, decision, "As the notes say", 1, default);
        await laboratory.Get<EquipmentFailing>().CloseAsync(manager.Actor, failure, "As the notes say", await laboratory.Small.ProofAsync(manager), 2, default);
    }

    private static async Task ReinstateAsync(OpenedSmallLaboratory laboratory, Guid id) =>
        await laboratory.Get<CertificateLife>().ReinstateAsync(laboratory.Small.People.QualityManager.Actor, id, "Looked at anew", (await CertificateAsync(laboratory, id)).Version, default);

    private static async Task<(CertificateState State, string? Reason)> StateAsync(OpenedSmallLaboratory laboratory, Guid id)
    {
        var certificate = await CertificateAsync(laboratory, id);
        (await laboratory.Get<CertificateCheck>().ByTokenAsync(certificate.VerifyToken, default))!.State.ShouldBe(certificate.State, "the public check says so");
        return (certificate.State, certificate.StateReason);
    }

    private static async Task<Certificate> CertificateAsync(OpenedSmallLaboratory laboratory, Guid id)
    {
        await using var data = laboratory.Data();
        return await data.Certificates.AsNoTracking().SingleAsync(one => one.Id == id);
    }
}
