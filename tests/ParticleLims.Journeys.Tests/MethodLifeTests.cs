using Microsoft.Playwright;
using ParticleLims.Laboratory.Documents;
using ParticleLims.Laboratory.Methods;
using ParticleLims.TestLaboratory.SmallLaboratories;
using Shouldly;
using Xunit;

namespace ParticleLims.Journeys.Tests;

/// <summary>A method from its draft to its use, in a real browser.</summary>
public sealed class MethodLifeTests
{
    [Fact]
    public async Task A_method_is_drafted_compared_approved_by_another_person_and_used_and_the_used_version_never_changes()
    {
        await using var journey = await JourneyLaboratory.OpenAsync();
        await using var browser = await Browser.OpenAsync(journey.Program.Address);
        var (small, people) = (journey.Small, journey.Small.People);
        var page = $"/methods/{small.Spice.MethodId}";

        var author = await browser.SignOnAsync(people.LaboratoryManager);
        await ReviseAsync(author, page, "3", "Three seconds: the last runs had not ended");
        (await author.At("changes").First.InnerTextAsync()).ShouldContain("Sieving time: 2 s for the stack became 3 s for the stack.");
        await author.At("hand-over").ClickAsync();
        await author.At("approve").ClickAsync();
        await author.FillInDialogAsync("#sign-password", people.LaboratoryManager.Password);
        await author.GetByRole(AriaRole.Button, new PageGetByRoleOptions { Name = "Sign", Exact = true }).ClickAsync();
        await author.Locator("[data-refusal='own-work']").WaitForAsync();
        (await VersionsAsync(small)).Select(version => version.State).ShouldBe([DocumentState.InApproval, DocumentState.InForce], "nobody approves what they wrote");

        var approver = await browser.SignOnAsync(people.QualityManager);
        await approver.OpenAsync(page);
        (await approver.At("changes").First.InnerTextAsync()).ShouldContain("Sieving time: 2 s for the stack became 3 s for the stack.");
        await approver.At("approve").ClickAsync();
        await approver.SignAsync(people.QualityManager);
        await approver.At("signatures").GetByText(people.QualityManager.FullName).First.WaitForAsync();
        var versions = await VersionsAsync(small);
        versions.Select(version => version.State).ShouldBe([DocumentState.InForce, DocumentState.Superseded]);

        var lot = await small.BookInLotAsync(small.Spice);
        var technician = await browser.SignOnAsync(people.Technician);
        await technician.OpenAsync($"/lots/{lot}/sample");
        var run = await Arrival.BookInSampleAsync(technician, "M-SB-500", "SP-SB-500");
        await small.Bench().CarryOutAsync(run, small.Spice, Powder.Spice);
        var used = await small.Bench().ViewAsync(run);
        (used.Run.MethodVersionId, used.Method.Number, used.Method.Seconds).ShouldBe((versions[0].Id, 2, 3));

        await ReviseAsync(author, page, "4", "Four seconds: to be on the safe side");
        await author.At("hand-over").ClickAsync();
        await author.At("approve").WaitForAsync();
        await approver.OpenAsync(page);
        await approver.At("approve").ClickAsync();
        await approver.SignAsync(people.QualityManager);
        await approver.GetByText("version 3").First.WaitForAsync();
        var after = await VersionsAsync(small);
        after.Select(version => (version.Number, version.State, version.Seconds)).ShouldBe([(3, DocumentState.InForce, 4), (2, DocumentState.Superseded, 3), (1, DocumentState.Superseded, 2)]);
        var unchanged = await small.Bench().ViewAsync(run);
        (unchanged.Run.MethodVersionId, unchanged.Method.Seconds, unchanged.Run.EvaluationId).ShouldBe((versions[0].Id, 3, used.Run.EvaluationId));
        await approver.OpenAsync($"/review/{run}");
        (await approver.Locator("main").InnerTextAsync()).ShouldContain("version 2");
    }

    private static async Task ReviseAsync(IPage page, string address, string seconds, string what)
    {
        await page.OpenAsync(address + "/revise");
        await page.FillAsync("#method-seconds", seconds);
        await page.FillAsync("#what-changed", what);
        await page.At("save-method").ClickAsync();
        await page.At("hand-over").WaitForAsync();
    }

    private static async Task<IReadOnlyList<MethodVersion>> VersionsAsync(SmallLaboratory small) =>
        (await small.Get<MethodKeeping>().AllAsync(small.People.QualityManager.Actor, default)).Single(one => one.Method.Id == small.Spice.MethodId).Versions;
}
