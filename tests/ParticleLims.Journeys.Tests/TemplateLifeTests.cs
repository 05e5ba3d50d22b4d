using Microsoft.Playwright;
using ParticleLims.TestLaboratory.SmallLaboratories;
using Shouldly;
using Xunit;

namespace ParticleLims.Journeys.Tests;

/// <summary>A template of certificates from its draft to the customer's paper, in a real browser.</summary>
public sealed class TemplateLifeTests
{
    private const string Note = "Ask for the safety data sheet before the first use";
    private const int MostLooks = 60;

    [Fact]
    public async Task A_template_is_drafted_beside_its_preview_approved_by_another_person_given_to_a_customer_and_printed()
    {
        TestLot lot = null!;
        await using var journey = await JourneyLaboratory.OpenAsync(async journey => lot = await (await journey.Small.BookInAsync(journey.Small.Calcite)).ReleaseAsync(Powder.Calcite));
        await using var browser = await Browser.OpenAsync(journey.Program.Address);
        var (small, people) = (journey.Small, journey.Small.People);

        var author = await browser.SignOnAsync(people.LaboratoryManager);
        await author.OpenAsync("/certificates/templates/new");
        await author.At("save-template").ClickAsync();
        await author.GetByText("Code: this is needed.").First.WaitForAsync();
        await author.WaitForFunctionAsync("() => { const place = document.querySelector('#template-code').getBoundingClientRect(); return place.top > 0 && place.bottom < innerHeight; }");
        await author.FillAsync("#template-code", "CT-JOURNEY");
        await author.FillAsync("#template-title", "Results before the sample");
        await author.At("up-Results").ClickAsync();
        await author.At("field-Quantity").UncheckAsync();
        await author.FillAsync("#text-note", Note);
        IsAsDrafted(await PreviewAsync(author));
        await author.At("save-template").ClickAsync();
        await author.At("hand-over").ClickAsync();
        await author.At("approve").WaitForAsync();
        var page = new Uri(author.Url).AbsolutePath;

        var quality = await browser.SignOnAsync(people.QualityManager);
        await quality.OpenAsync(page);
        await quality.At("approve").ClickAsync();
        await quality.SignAsync(people.QualityManager);
        await quality.At("signatures").GetByText(people.QualityManager.FullName).WaitForAsync();

        await author.OpenAsync($"/customers/{small.Customer}");
        await author.At("change-customer").ClickAsync();
        await author.ChooseAsync("customer-template", "CT-JOURNEY");
        await author.FillAsync("#customer-reason", "The customer wants the results first");
        await author.At("save-customer").ClickAsync();
        await author.At("save-customer").WaitForAsync(new LocatorWaitForOptions { State = WaitForSelectorState.Detached });

        await quality.OpenAsync($"/decisions/{lot.Id}");
        await quality.At("issue").ClickAsync();
        var paper = Unbroken(PrintedWords.Of(await PrintedWords.DownloadAsync(quality, "download")));
        IsAsDrafted(paper);
        paper.ShouldNotContain("DRAFT");
        (await journey.VerifyRecordAsync()).Fault.ShouldBeNull();
    }

    private static void IsAsDrafted(string paper)
    {
        paper.ShouldContain(Note);
        paper.ShouldNotContain("Quantity", Case.Sensitive);
        paper.IndexOf("Characteristic", StringComparison.Ordinal).ShouldBeLessThan(paper.IndexOf("On receipt", StringComparison.Ordinal), "the results were moved before the sample");
    }

    // The paper is drawn again a moment after the last change, and the frame's address changes with it.
    private static async Task<string> PreviewAsync(IPage author)
    {
        for (var looks = 0; looks < MostLooks; looks++)
        {
            var address = (await author.At("preview-frame").GetAttributeAsync("src"))!.Split('#')[0];
            var answer = await author.APIRequest.GetAsync(address);
            if (answer.Ok && Unbroken(PrintedWords.Of(await answer.BodyAsync())) is var paper && paper.Contains(Note, StringComparison.Ordinal))
            {
                return paper;
            }

            await author.WaitForTimeoutAsync(250);
        }

        throw new InvalidOperationException("The preview never showed what was typed.");
    }

    private static string Unbroken(string words) => string.Join(' ', words.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
}
