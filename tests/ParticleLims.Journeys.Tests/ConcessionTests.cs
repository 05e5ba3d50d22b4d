using ParticleLims.Laboratory.Investigations;
using ParticleLims.Laboratory.Lots;
using ParticleLims.TestLaboratory.SmallLaboratories;
using Shouldly;
using Xunit;

namespace ParticleLims.Journeys.Tests;

/// <summary>A lot out of specification that the customer takes all the same, in a real browser.</summary>
public sealed class ConcessionTests
{
    [Fact]
    public async Task A_lot_out_of_specification_is_released_by_concession_by_two_persons_and_its_certificate_says_so()
    {
        await using var journey = await JourneyLaboratory.OpenAsync();
        await using var browser = await Browser.OpenAsync(journey.Program.Address);
        var (small, people) = (journey.Small, journey.Small.People);
        var lot = await (await (await small.BookInAsync(small.Spice)).SubmitAsync(Powder.SpiceCoarser(8m))).AcceptAsync();
        await small.Desk.ConcludeAsync(lot.Id, InvestigationConclusion.Confirmed);

        var quality = await browser.SignOnAsync(people.QualityManager);
        await quality.OpenAsync($"/decisions/{lot.Id}");
        (await quality.At("release").IsDisabledAsync()).ShouldBeTrue("a limit is not met");
        (await quality.At("concede").CountAsync()).ShouldBe(0, "nobody has proposed it");
        (await quality.At("propose").CountAsync()).ShouldBe(0, "who grants it does not propose it");

        var manager = await browser.SignOnAsync(people.LaboratoryManager);
        await manager.OpenAsync($"/decisions/{lot.Id}");
        (await manager.At("release").CountAsync()).ShouldBe(0, "who proposes does not decide");
        await manager.FillAsync("#proposal", "The customer grinds it again before use");
        await manager.At("propose").ClickAsync();
        await manager.GetByText("Concession proposed by Lena Hollow").WaitForAsync();
        (await manager.At("concede").CountAsync()).ShouldBe(0);

        await quality.OpenAsync($"/decisions/{lot.Id}");
        await quality.GetByText("Concession proposed by Lena Hollow").WaitForAsync();
        await quality.At("concede").ClickAsync();
        await quality.FillInDialogAsync("#sign-reason", "Agreed with the customer in writing on Monday");
        await quality.SignAsync(people.QualityManager);
        await quality.At("dispositions").GetByText("released by concession, signed by Quinn Ashby").WaitForAsync();
        (await small.Desk.EvidenceAsync(lot.Id)).Lot.State.ShouldBe(LotState.ReleasedByConcession);

        await quality.At("issue").ClickAsync();
        var words = Unbroken(PrintedWords.Of(await PrintedWords.DownloadAsync(quality, "download")));
        words.ShouldContain("The lot was released by concession.");
        words.ShouldContain("Concession: Agreed with the customer in writing on Monday");
        words.ShouldContain("Retained on 500 µm");
        words.ShouldContain("does not conform");
        words.ShouldMatch(@"I-\d\d-00001", "the investigation is named");
        (await journey.VerifyRecordAsync()).Fault.ShouldBeNull();
    }

    private static string Unbroken(string words) => string.Join(' ', words.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
}
