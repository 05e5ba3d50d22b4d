using Microsoft.Playwright;
using Shouldly;
using Xunit;
using ZXing;

namespace ParticleLims.Journeys.Tests;

/// <summary>Labels read by the camera of a terminal. The camera is the browser's own stand-in, which shows a film.</summary>
public sealed class CameraTests
{
    [Fact]
    public async Task A_camera_reads_both_kinds_of_label_and_chooses_the_sieves()
    {
        var folder = Directory.CreateTempSubdirectory("particlelims-film-");
        try
        {
            var film = Path.Combine(folder.FullName, "labels.y4m");
            LabelFilm.Write(film, (BarcodeFormat.QR_CODE, "TS-GC-45-090"), (BarcodeFormat.CODE_128, "TS-GC-45-020"));
            await using var journey = await JourneyLaboratory.OpenAsync();
            await using var browser = await Browser.OpenAsync(journey.Program.Address, film);
            var page = await browser.SignOnAsync(journey.Small.People.Technician);
            await Arrival.BookInAsync(page);
            await page.At("camera").ClickAsync();
            await SaidAsync(page, "TS-GC-45-090 is chosen");
            await SaidAsync(page, "TS-GC-45-020 is chosen");
            await page.At("camera").ClickAsync();
            await page.At("camera-picture").WaitForAsync(new LocatorWaitForOptions { State = WaitForSelectorState.Detached });
            (await page.At("camera-words").CountAsync()).ShouldBe(0);
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }

    [Fact]
    public async Task Without_a_camera_the_page_says_so_and_the_code_can_be_typed()
    {
        await using var journey = await JourneyLaboratory.OpenAsync();
        await using var browser = await Browser.OpenAsync(journey.Program.Address);
        var page = await browser.SignOnAsync(journey.Small.People.Technician);
        await Arrival.BookInAsync(page);
        await page.At("camera").ClickAsync();
        (await page.At("camera-words").InnerTextAsync()).ShouldMatch("camera");
        await page.FillAsync("#start-scan", "TS-GC-45-090");
        await page.PressAsync("#start-scan", "Enter");
        await SaidAsync(page, "TS-GC-45-090 is chosen");
    }

    private static Task SaidAsync(IPage page, string words) => page.At("start-scanned").Filter(new LocatorFilterOptions { HasText = words }).WaitForAsync();
}
