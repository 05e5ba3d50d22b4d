using Deque.AxeCore.Playwright;
using ParticleLims.Laboratory.Lots;
using ParticleLims.Laboratory.Runs;
using ParticleLims.TestLaboratory.SmallLaboratories;
using Shouldly;
using Xunit;

namespace ParticleLims.Journeys.Tests;

/// <summary>A cause that is found only after a run was accepted, in a real browser.</summary>
public sealed class InvalidationTests
{
    [Fact]
    public async Task An_accepted_run_is_invalidated_on_its_page_by_two_signatures_and_planned_anew()
    {
        await using var journey = await JourneyLaboratory.OpenAsync();
        await using var browser = await Browser.OpenAsync(journey.Program.Address);
        var (small, people) = (journey.Small, journey.Small.People);
        var lot = await (await (await small.BookInAsync(small.Spice)).SubmitAsync(Powder.Spice)).AcceptAsync();

        var reviewer = await browser.SignOnAsync(people.Reviewer);
        await reviewer.OpenAsync($"/review/{lot.RunId}");
        (await reviewer.At("invalidate").IsDisabledAsync()).ShouldBeTrue("no cause is written");
        (await reviewer.RunAxe()).Violations.Select(violation => violation.Id).ShouldBeEmpty();
        await reviewer.FillAsync("#review-reason", "The lid of the shaker was loose");
        await reviewer.At("invalidate").ClickAsync();
        await reviewer.SignAsync(people.Reviewer);
        await reviewer.At("invalidation-proposed").GetByText("The lid of the shaker was loose").WaitForAsync();
        (await small.Bench().ViewAsync(lot.RunId)).Run.State.ShouldBe(RunState.Accepted, "it counts until both have signed");

        var quality = await browser.SignOnAsync(people.QualityManager);
        await quality.OpenAsync($"/review/{lot.RunId}");
        await quality.At("confirm-invalidation").ClickAsync();
        await quality.SignAsync(people.QualityManager);
        await quality.Locator("[data-state='invalidated']").First.WaitForAsync();
        var evidence = await small.Desk.EvidenceAsync(lot.Id);
        evidence.Lot.State.ShouldBe(LotState.AwaitingResults);
        evidence.AllRuns.Select(run => (run.State, run.ReplacesRunId)).ShouldBe([(RunState.Invalidated, null), (RunState.Planned, lot.RunId)]);
    }
}
