using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Certificates;
using ParticleLims.Laboratory.Lots;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Review;
using ParticleLims.Laboratory.Samples;

namespace ParticleLims.Laboratory.Tests.Lots;

/// <summary>A slip in what was written down on arrival is corrected with a reason, what stood there stays in the record, and what was signed stays what was signed.</summary>
public sealed class CorrectionTests
{
    private const string Reason = "The delivery note says so";

    [Theory]
    [EachDatabase]
    public async Task A_slip_in_a_lot_is_corrected_and_the_record_tells_both_values(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        var id = await small.BookInLotAsync(small.Starch);
        var before = await LotAsync(laboratory, id);
        await CorrectAsync(small, before, before.Particulars with { QuantityKilograms = 1520.5m, Container = "  60 bags of 25 kg ", RetestOn = before.MadeOn.AddYears(2) });

        var after = await LotAsync(laboratory, id);
        after.Particulars.ShouldBe(before.Particulars with { QuantityKilograms = 1520.5m, Container = "60 bags of 25 kg", RetestOn = before.MadeOn.AddYears(2) });
        var told = (await small.Get<CorrectionReading>().OfLotAsync(small.People.QualityManager.Actor, id, default)).ShouldHaveSingleItem();
        (told.Code, told.Reason, told.PersonName).ShouldBe(("lots.correct", Reason, small.People.Technician.FullName));
        RecordDifference.Of(told).ShouldHaveSingleItem().Values.ShouldContain(value => value.Name == "Quantity kilograms" && value.Before == "1250.5" && value.After == "1520.5");
        (await laboratory.VerifyRecordAsync()).Fault.ShouldBeNull();
    }

    [Theory]
    [EachDatabase]
    public async Task What_no_lot_can_be_is_refused_and_nothing_changes(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        var lot = await LotAsync(laboratory, await small.BookInLotAsync(small.Starch));
        var (good, tomorrow) = (lot.Particulars, lot.MadeOn.AddDays(2));
        foreach (var (code, member, wrong) in new[]
        {
            ("lot-quantity", "quantityKilograms", good with { QuantityKilograms = 0m }), ("lot-quantity", "quantityKilograms", good with { QuantityKilograms = 10_000_000.1m }),
            ("lot-from-the-future", "madeOn", good with { MadeOn = tomorrow }), ("lot-reference", "customerReference", good with { CustomerReference = new string('x', 121) }),
            ("lot-container", "container", good with { Container = new string('x', 201) }), ("lot-shelf-life", "retestOn", good with { RetestOn = good.MadeOn }),
            ("lot-shelf-life", "expiresOn", good with { ExpiresOn = good.MadeOn.AddDays(-1) }), ("lot-shelf-life", "expiresOn", good with { RetestOn = tomorrow, ExpiresOn = tomorrow }),
            ("nothing-corrected", null!, good with { Container = "  " }),
        })
        {
            (await laboratory.ShouldRefuseAsync(code, () => CorrectAsync(small, lot, wrong))).Member.ShouldBe(member);
            if (code != "nothing-corrected")
            {
                await laboratory.ShouldRefuseAsync(code, () => small.Get<LotReception>().BookInAsync(small.People.Technician.Actor, new NewLot("L-wrong", small.Starch.ProductId, null, wrong), null, default));
            }
        }

        await laboratory.ShouldRefuseAsync("reason-missing", () => small.Get<LotCorrection>().CorrectAsync(small.People.Technician.Actor, lot.Id, good with { QuantityKilograms = 3m }, " ", lot.Version, default));
        await CorrectAsync(small, lot, good with { QuantityKilograms = 3m });
        await laboratory.ShouldRefuseAsync("changed-meanwhile", () => CorrectAsync(small, lot, good with { QuantityKilograms = 4m }));
    }

    [Theory]
    [EachDatabase]
    public async Task A_released_lot_is_corrected_by_who_issues_its_certificates_and_a_revision_says_it(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (small, manager) = (laboratory.Small, laboratory.Small.People.QualityManager);
        var lot = await small.BookInAsync(small.Starch);
        await lot.SubmitAsync(Powder.Starch);
        await lot.AcceptAsync();
        await laboratory.ShouldRefuseAsync("lot-decided", async () => await CorrectDecidedAsync(small, await LotAsync(laboratory, lot.Id), one => one with { Container = "Drums" }));
        await small.Desk.ReleaseAsync(lot.Id);
        var certificate = await small.Desk.IssueAsync(lot.Id, lot.Sample.Id);
        var issued = await ContentAsync(laboratory, certificate);
        issued.ShouldContain("PO 7781");

        var released = await LotAsync(laboratory, lot.Id);
        (await laboratory.ShouldRefuseAsync("lot-decided", () => CorrectAsync(small, released, released.Particulars with { CustomerReference = "PO 7718" }))).Message.ShouldContain("only the quality manager");
        await CorrectDecidedAsync(small, released, one => one with { CustomerReference = "PO 7718", Container = "25 drums of 50 kg", ExpiresOn = one.MadeOn.AddYears(1) });

        (await ContentAsync(laboratory, certificate)).ShouldBe(issued, "what was issued stays");
        var revised = await ContentAsync(laboratory, await small.Get<CertificateIssue>().ReviseAsync(manager.Actor, certificate, "The order number", Reason, 1, null, default));
        revised.ShouldContain("PO 7718");
        revised.ShouldContain("25 drums of 50 kg");
        revised.ShouldContain($"\"expiresOn\":\"{released.MadeOn.AddYears(1):yyyy-MM-dd}\"");
        (await small.Get<ParticleLims.Laboratory.Record.SignatureReading>().OfAsync(manager.Actor, lot.Id, default)).ShouldAllBe(one => one.Unchanged == true, "the decision was on the results, which stay");
    }

    [Theory]
    [EachDatabase]
    public async Task A_slip_in_a_sample_is_corrected_its_sampling_judged_anew_and_the_reviewer_sees_it(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        var lot = await small.BookInAsync(small.Starch);
        var sample = await SampleAsync(small, lot.Sample.Id);
        await CorrectAsync(small, sample, one => one with { Increments = 4, TakenBy = " Milling shift C " });
        var corrected = await SampleAsync(small, lot.Sample.Id);
        (corrected.TakenBy, corrected.SamplingLacks).ShouldBe(("Milling shift C", "4 of 5 increments were taken"));
        await laboratory.ShouldRefuseAsync("changed-meanwhile", () => CorrectAsync(small, sample, one => one with { TakenBy = "Milling shift D" }));
        await CorrectAsync(small, corrected, one => one with { Increments = 5 });
        (await SampleAsync(small, lot.Sample.Id)).SamplingLacks.ShouldBeNull();

        await lot.SubmitAsync(Powder.Starch);
        var changes = await small.Get<RunChanges>().OpenAsync(small.People.Reviewer.Actor, lot.Sample.RunIds[0], default);
        changes.Count(one => one.Code == "samples.correct").ShouldBe(2);
        await laboratory.ShouldRefuseAsync("sample-from-the-future", async () => await CorrectAsync(small, await SampleAsync(small, lot.Sample.Id), one => one with { TakenAt = sample.ReceivedAt.AddSeconds(1) }));
        await laboratory.ShouldRefuseAsync("sample-incomplete", async () => await CorrectAsync(small, await SampleAsync(small, lot.Sample.Id), one => one with { Description = " " }));
        await laboratory.ShouldRefuseAsync("nothing-corrected", async () => await CorrectAsync(small, await SampleAsync(small, lot.Sample.Id), one => one with { Description = one.Description + " " }));
        (await laboratory.VerifyRecordAsync()).Fault.ShouldBeNull();
    }

    [Theory]
    [EachDatabase]
    public async Task What_was_signed_of_a_sampling_stays_and_the_rest_is_corrected_by_who_issues_certificates(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var (small, manager) = (laboratory.Small, laboratory.Small.People.QualityManager);
        var few = await small.BookInLotAsync(small.Starch);
        var booked = await small.Get<SampleReception>().BookInAsync(small.People.Technician.Actor, small.NewSample(few, small.Starch).Arriving(one => one with { Increments = 3 }), null, default);
        await small.Get<SamplingAccepting>().AcceptAsync(manager.Actor, booked.Id, "The silo was nearly empty", await small.ProofAsync(manager), default);
        await laboratory.ShouldRefuseAsync("sampling-signed", async () => await CorrectAsync(small, await SampleAsync(small, booked.Id), one => one with { Increments = 5 }));
        await CorrectAsync(small, await SampleAsync(small, booked.Id), one => one with { ConditionOnReceipt = "Sealed, damp" });

        var lot = await small.BookInAsync(small.Starch);
        await small.Desk.RejectAsync(lot.Id, "Wet when it came");
        var sample = await SampleAsync(small, lot.Sample.Id);
        await laboratory.ShouldRefuseAsync("lot-decided", () => CorrectAsync(small, sample, one => one with { TakenBy = "Shift C" }));
        await laboratory.ShouldRefuseAsync("sampling-signed", () => CorrectDecidedAsync(small, sample, one => one with { Recorded = "Seal 4471" }));
        await CorrectDecidedAsync(small, sample, one => one with { TakenBy = "Shift C" });
        (await SampleAsync(small, lot.Sample.Id)).TakenBy.ShouldBe("Shift C");
    }

    [Theory]
    [EachDatabase]
    public async Task A_reworked_lot_keeps_to_the_lots_that_came_out_of_it(DatabaseKind kind)
    {
        await using var laboratory = await OpenedSmallLaboratory.OpenAsync(kind);
        var small = laboratory.Small;
        var lot = await small.BookInAsync(small.Starch);
        await small.Desk.RejectAsync(lot.Id, "Too coarse by far");
        var rejected = await LotAsync(laboratory, lot.Id);
        var today = rejected.MadeOn.AddDays(1);
        await small.Get<ParticleLims.Laboratory.Dispositions.LotRework>().ReworkAsync(small.People.QualityManager.Actor, lot.Id, new("L-again", 800m, today, "Milled again by procedure 7"), await small.ProofAsync(small.People.QualityManager), default);
        (await laboratory.ShouldRefuseAsync("lot-quantity", () => CorrectDecidedAsync(small, rejected, one => one with { QuantityKilograms = 799m }))).Message.ShouldContain("800 kg of it were reworked");
        await CorrectDecidedAsync(small, rejected, one => one with { QuantityKilograms = 800m });
        await using var data = laboratory.Data();
        var child = await data.Lots.AsNoTracking().SingleAsync(one => one.ReworkedFromId == lot.Id);
        await laboratory.ShouldRefuseAsync("rework-day", () => CorrectAsync(small, child, child.Particulars with { MadeOn = rejected.MadeOn.AddDays(-1) }));
    }

    private static async Task<Lot> LotAsync(OpenedSmallLaboratory laboratory, Guid id)
    {
        await using var data = laboratory.Data();
        return await data.Lots.AsNoTracking().SingleAsync(one => one.Id == id);
    }

    private static async Task<Sample> SampleAsync(SmallLaboratory small, Guid id) => (await small.Get<SampleReception>().FindAsync(small.People.Technician.Actor, id, default))!;

    private static async Task<string> ContentAsync(OpenedSmallLaboratory laboratory, Guid certificate)
    {
        await using var data = laboratory.Data();
        return (await data.Certificates.SingleAsync(one => one.Id == certificate)).Content;
    }

    private static Task<bool> CorrectAsync(SmallLaboratory small, Lot shown, LotParticulars corrected) =>
        small.Get<LotCorrection>().CorrectAsync(small.People.Technician.Actor, shown.Id, corrected, Reason, shown.Version, default);

    private static Task<bool> CorrectDecidedAsync(SmallLaboratory small, Lot shown, Func<LotParticulars, LotParticulars> change) =>
        small.Get<LotCorrection>().CorrectDecidedAsync(small.People.QualityManager.Actor, shown.Id, change(shown.Particulars), Reason, shown.Version, default);

    private static Task<bool> CorrectAsync(SmallLaboratory small, Sample shown, Func<SampleParticulars, SampleParticulars> change) =>
        small.Get<SampleCorrection>().CorrectAsync(small.People.Technician.Actor, shown.Id, shown.Particulars, change(shown.Particulars), Reason, default);

    private static Task<bool> CorrectDecidedAsync(SmallLaboratory small, Sample shown, Func<SampleParticulars, SampleParticulars> change) =>
        small.Get<SampleCorrection>().CorrectDecidedAsync(small.People.QualityManager.Actor, shown.Id, shown.Particulars, change(shown.Particulars), Reason, default);
}
