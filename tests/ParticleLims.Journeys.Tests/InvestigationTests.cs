using Deque.AxeCore.Playwright;
using ParticleLims.Laboratory.Investigations;
using ParticleLims.Laboratory.Lots;
using ParticleLims.TestLaboratory.SmallLaboratories;
using Shouldly;
using Xunit;

namespace ParticleLims.Journeys.Tests;

/// <summary>A value out of specification, from the result to the rejection and the rework, in a real browser.</summary>
public sealed class InvestigationTests
{
    [Fact]
    public async Task A_lot_out_of_specification_is_investigated_point_by_point_rejected_and_reworked()
    {
        await using var journey = await JourneyLaboratory.OpenAsync();
        await using var browser = await Browser.OpenAsync(journey.Program.Address);
        var small = journey.Small;
        var lot = await (await small.BookInAsync(small.Calcite)).SubmitAsync(Powder.CoarseCalcite);
        await small.Desk.AcceptAsync(lot.RunId);
        var open = await small.Desk.OpenInvestigationAsync(lot.Id);

        var reviewer = await browser.SignOnAsync(small.People.Reviewer);
        await reviewer.OpenAsync($"/investigations/{open.Id}");
        await reviewer.GetByText("Do not tip out the sieves").WaitForAsync();
        (await reviewer.At("full-phase").IsDisabledAsync()).ShouldBeTrue("no point is answered yet");
        for (var left = PhasePoints.All.Count; left > 0; left--)
        {
            await reviewer.FillAsync("#point-evidence", $"Looked at, nothing found ({left})");
            await reviewer.At("answer-point").ClickAsync();
            await reviewer.GetByText(left == 1 ? "Every point is answered." : left == 2 ? "1 point is not answered yet." : $"{left - 1} points are not answered yet.").WaitForAsync();
        }

        (await reviewer.RunAxe()).Violations.Select(violation => violation.Id).ShouldBeEmpty();
        await reviewer.At("full-phase").ClickAsync();
        await reviewer.SayWhyAsync("No cause in the laboratory");
        await reviewer.Locator("h1").GetByText("open, full phase").WaitForAsync();
        await reviewer.At("other-lots").ClickAsync();
        await reviewer.At("no-lots").ClickAsync();
        await reviewer.SayWhyAsync("Those before and after it conform");
        await reviewer.At("no-other-lots").WaitForAsync();

        var quality = await browser.SignOnAsync(small.People.QualityManager);
        await quality.OpenAsync($"/investigations/{open.Id}");
        await quality.Locator("#conclusion").SelectOptionAsync("1");
        await quality.At("conclude").ClickAsync();
        await quality.FillInDialogAsync("#sign-reason", "The mill's screen was torn");
        await quality.SignAsync(small.People.QualityManager);
        await quality.At("conclusion-said").WaitForAsync();
        (await quality.At("conclusion-said").InnerTextAsync()).ShouldContain("out of specification confirmed: The mill's screen was torn");

        await quality.OpenAsync($"/decisions/{lot.Id}");
        (await quality.At("release").IsDisabledAsync()).ShouldBeTrue();
        await quality.At("reject").ClickAsync();
        await quality.FillInDialogAsync("#sign-reason", "Too coarse, confirmed");
        await quality.SignAsync(small.People.QualityManager);
        await quality.At("rework").ClickAsync();
        await quality.FillAsync("#rework-procedure", "Ground again by procedure P-12");
        await quality.At("approve-rework").ClickAsync();
        await quality.SignAsync(small.People.QualityManager);
        await quality.At("reworked").WaitForAsync();
        var evidence = await small.Desk.EvidenceAsync(lot.Id);
        evidence.Lot.State.ShouldBe(LotState.Rejected);
        (await quality.At("reworked").InnerTextAsync()).ShouldContain(evidence.Lot.Number + "-R1");
    }
}
