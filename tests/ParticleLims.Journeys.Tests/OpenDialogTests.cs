using Microsoft.Playwright;
using ParticleLims.Laboratory.Lots;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Runs;
using ParticleLims.TestLaboratory.SmallLaboratories;
using Shouldly;
using Xunit;

namespace ParticleLims.Journeys.Tests;

/// <summary>What is signed is what was shown: where it changes in another browser while the signing dialog is open, nothing is signed.</summary>
public sealed class OpenDialogTests
{
    [Fact]
    public async Task What_changes_under_an_open_signing_dialog_is_not_signed_and_the_page_says_why()
    {
        await using var journey = await JourneyLaboratory.OpenAsync();
        await using var browser = await Browser.OpenAsync(journey.Program.Address);
        var (small, people) = (journey.Small, journey.Small.People);
        var (released, reviewed) = (await (await small.BookInAsync(small.Spice)).SubmitAsync(Powder.Spice), await (await small.BookInAsync(small.Spice)).SubmitAsync(Powder.Spice));
        await released.AcceptAsync();

        var quality = await browser.SignOnAsync(people.QualityManager);
        await quality.OpenAsync($"/decisions/{released.Id}");
        await quality.At("release").ClickAsync();
        await quality.FillInDialogAsync("#sign-password", people.QualityManager.Password);
        var technician = await browser.SignOnAsync(people.Technician);
        await technician.OpenAsync($"/lots/{released.Id}/sample");
        await Arrival.BookInSampleAsync(technician, "M-SB-500", "SP-SB-500");
        await SignInVainAsync(quality);
        var evidence = await small.Desk.EvidenceAsync(released.Id);
        (evidence.Lot.State, evidence.Dispositions.Count, evidence.Results.Count).ShouldBe((LotState.AwaitingResults, 0, 2));
        (await small.Get<SignatureReading>().OfAsync(people.QualityManager.Actor, released.Id, default)).ShouldBeEmpty();
        await quality.At("blockers").GetByText("not every replicate is in").WaitForAsync();

        var reviewer = await browser.SignOnAsync(people.Reviewer);
        await OpenSigningOfReviewAsync(reviewer, reviewed.RunId, people.Reviewer);
        var besides = await browser.SignOnAsync(people.Reviewer);
        await besides.OpenAsync($"/review/{reviewed.RunId}");
        await besides.FillAsync("#review-reason", "Look at the residue on 500 µm again");
        await besides.At("return").ClickAsync();
        await besides.Locator("[data-state='returned']").First.WaitForAsync();
        await SignInVainAsync(reviewer);
        (await small.Bench().ViewAsync(reviewed.RunId)).Run.State.ShouldBe(RunState.Returned);
        (await small.Get<SignatureReading>().OfAsync(people.QualityManager.Actor, reviewed.RunId, default)).ShouldBeEmpty();
        (await journey.VerifyRecordAsync()).Fault.ShouldBeNull();
    }

    private static async Task OpenSigningOfReviewAsync(IPage page, Guid run, TestPerson person)
    {
        await page.OpenAsync($"/review/{run}");
        await page.At("open-changes").ClickAsync();
        await page.At("changes").WaitForAsync();
        await page.At("accept").ClickAsync();
        await page.FillInDialogAsync("#sign-password", person.Password);
    }

    private static async Task SignInVainAsync(IPage page)
    {
        await page.GetByRole(AriaRole.Button, new PageGetByRoleOptions { Name = "Sign", Exact = true }).ClickAsync();
        var refusal = page.Locator("[data-refusal='changed-meanwhile']").First;
        await refusal.WaitForAsync();
        (await refusal.InnerTextAsync()).ShouldContain("was changed by somebody else since you opened it. Nothing of yours was saved");

        // Whoever signed at the foot of a long page sees it without looking for it.
        await page.WaitForFunctionAsync("() => { const place = document.querySelector('[data-refusal]').getBoundingClientRect(); return place.top > 0 && place.bottom < innerHeight; }");
    }
}
