using Microsoft.Playwright;
using ParticleLims.TestLaboratory.SmallLaboratories;
using Shouldly;
using Xunit;

namespace ParticleLims.Journeys.Tests;

/// <summary>Slips of the pen in a real browser: at the bench's desk, and after the certificate went out; a lot with two samples, and one that is milled again.</summary>
public sealed class CorrectionTests
{
    [Fact]
    public async Task A_slip_is_corrected_with_a_reason_and_a_certificate_says_it_after_a_revision()
    {
        await using var journey = await JourneyLaboratory.OpenAsync();
        await using var browser = await Browser.OpenAsync(journey.Program.Address);
        var (small, people) = (journey.Small, journey.Small.People);
        var first = await small.BookInAsync(small.Calcite);
        var second = new TestLot(small, small.Calcite, first.Id, await small.BookInSampleAsync(first.Id, small.Calcite));

        var technician = await browser.SignOnAsync(people.Technician);
        await technician.OpenAsync($"/lots/{first.Id}");
        await technician.At("correct-sample").First.ClickAsync();
        await technician.FillAsync("#taken-by", "Milling shift C");
        await technician.At("save-correction").ClickAsync();
        await technician.GetByText("Reason: this is needed.").WaitForAsync();
        await technician.FillAsync("#correction-reason", "The jar says shift C");
        await technician.At("save-correction").ClickAsync();
        (await technician.At("corrections").InnerTextAsync()).ShouldContain("Milling shift B → Milling shift C");

        foreach (var sample in new[] { first, second })
        {
            await sample.SubmitAsync(Powder.Calcite);
            await sample.AcceptAsync();
        }

        await small.Desk.ReleaseAsync(first.Id);
        await small.Desk.IssueAsync(first.Id, first.Sample.Id);
        await technician.OpenAsync($"/lots/{first.Id}");
        await technician.At("lot-runs").WaitForAsync();
        (await technician.At("correct-lot").CountAsync()).ShouldBe(0, "a released lot is not the technician's any more");

        var quality = await browser.SignOnAsync(people.QualityManager);
        await quality.OpenAsync($"/lots/{first.Id}");
        (await quality.At("uncertified").InnerTextAsync()).ShouldContain(second.Sample.Code);
        await quality.At("correct-lot").ClickAsync();
        await quality.FillAsync("#lot-reference", "PO 7718");
        await quality.FillAsync("#lot-container", "50 paper sacks of 25 kg");
        await quality.FillAsync("#lot-expires-on", "2035-03-02");
        await quality.FillAsync("#correction-reason", "Two digits were swapped");
        await quality.At("save-correction").ClickAsync();
        await quality.At("outdated-certificate").GetByRole(AriaRole.Link).ClickAsync();
        await quality.At("revise").ClickAsync();
        await quality.FillInDialogAsync("#what-changed", "Your reference");
        await quality.FillInDialogAsync("#reason", "Two digits were swapped");
        await quality.GetByRole(AriaRole.Button, new() { Name = "Issue the revision" }).ClickAsync();
        await quality.GetByText(" revised").First.WaitForAsync();

        await quality.OpenAsync($"/lots/{first.Id}");
        await quality.At("corrections").WaitForAsync();
        (await quality.At("outdated-certificate").CountAsync()).ShouldBe(0, "the revision says the new");
        await quality.OpenAsync($"/decisions/{first.Id}");
        (await quality.At("corrections").InnerTextAsync()).ShouldContain("PO 7781 → PO 7718");
        (await quality.At("corrections").InnerTextAsync()).ShouldContain("Expires on: – → 2035-03-02", Case.Sensitive, "days are unambiguous");
        await quality.At("issue").First.ClickAsync();
        var words = PrintedWords.Of(await PrintedWords.DownloadAsync(quality, "download"));
        words.ShouldContain("PO 7718");
        words.ShouldContain("50 paper sacks of 25 kg");
        (await journey.VerifyRecordAsync()).Fault.ShouldBeNull();
    }

    [Fact]
    public async Task A_rejected_lot_is_milled_again_into_a_new_one_with_all_of_the_tests_again()
    {
        await using var journey = await JourneyLaboratory.OpenAsync();
        await using var browser = await Browser.OpenAsync(journey.Program.Address);
        var (small, people) = (journey.Small, journey.Small.People);
        var lot = await small.BookInAsync(small.Calcite);
        await small.Desk.RejectAsync(lot.Id, "Lumps throughout the lot");

        var quality = await browser.SignOnAsync(people.QualityManager);
        await quality.OpenAsync($"/decisions/{lot.Id}");
        await quality.At("rework").ClickAsync();
        await quality.FillAsync("#rework-number", "J-4711-R");
        await quality.FillAsync("#rework-quantity", "2000");
        await quality.FillAsync("#rework-procedure", "Milled again by procedure 7");
        await quality.At("approve-rework").ClickAsync();
        await quality.SignAsync(people.QualityManager);
        await quality.GetByText("more cannot come out of it").First.WaitForAsync();
        await quality.FillAsync("#rework-quantity", "1200");
        await quality.At("approve-rework").ClickAsync();
        await quality.SignAsync(people.QualityManager);
        await quality.At("reworked").WaitForAsync();
        (await quality.At("reworked").InnerTextAsync()).ShouldContain("J-4711-R");

        await quality.At("reworked").GetByRole(AriaRole.Link).ClickAsync();
        await quality.At("reworked-from").WaitForAsync();
        (await quality.At("reworked-from").InnerTextAsync()).ShouldContain("Milled again by procedure 7");
        await quality.GetByText("awaiting results").First.WaitForAsync();
        (await journey.VerifyRecordAsync()).Fault.ShouldBeNull();
    }
}
