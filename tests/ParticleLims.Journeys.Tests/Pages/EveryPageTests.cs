using System.Collections.Concurrent;
using Microsoft.Playwright;
using Shouldly;
using Xunit;

namespace ParticleLims.Journeys.Tests.Pages;

/// <summary>Looks at each page of the program in a real browser; <c>tests/pictures</c> keeps what is seen.</summary>
public sealed class EveryPageTests
{
    private const int AtOnce = 3;
    private const int PagesOfOneTerminal = 8;

    [Fact]
    public async Task Every_page_shows_itself_whole_and_readable_and_each_link_leads_somewhere()
    {
        var pictures = PictureFolder.Wished;
        await using var demonstration = await DemonstrationProgram.OpenAsync(Environment.GetEnvironmentVariable("PARTICLELIMS_PICTURES_DATA"));
        await using var browser = await Browser.OpenAsync(demonstration.Program.Address);
        var places = await DemonstrationPlaces.ReadAsync(demonstration.DatabaseFile);
        var (faults, crawl) = (new ConcurrentQueue<string>(), new LinkCrawl());

        // Several terminals at the same time: a browser mostly waits.
        await Parallel.ForEachAsync(Terminals(places), new ParallelOptions { MaxDegreeOfParallelism = AtOnce }, async (terminal, _) =>
        {
            var screen = await OpenAsync(browser, demonstration, terminal.Who);
            foreach (var page in terminal.Pages)
            {
                var seen = default(PageView);
                foreach (var view in pictures.ViewsOf(page))
                {
                    Note(await new PageVisit(demonstration.Program.Address, screen, page, view).LookAsync(pictures, isOpen: seen == PageView.Desk), faults);
                    seen = view;
                }

                Note(await crawl.FollowAsync(screen, terminal.Who ?? "anybody"), faults);
            }

            if (terminal.Pages.Any(page => page.Name == "certificate"))
            {
                await KeepCertificateAsync(screen, places, pictures);
            }

            await screen.Context.CloseAsync();
        });

        crawl.Followed.ShouldBeGreaterThan(100);
        faults.ShouldBeEmpty(string.Join(Environment.NewLine, faults));
    }

    [Fact]
    public async Task An_empty_laboratory_shows_the_page_to_set_it_up()
    {
        var folder = Directory.CreateTempSubdirectory("particlelims-empty-");
        try
        {
            await using var program = new RunningProgram(folder.FullName);
            await program.StartAsync();
            var link = program.Said.Single(line => line.Contains("/set-up?link=", StringComparison.Ordinal)).Split(' ')[^1];
            await using var browser = await Browser.OpenAsync(program.Address);
            var screen = await browser.OpenPageAsync();
            var page = new ProgramPage("set-up", null, new Uri(link).PathAndQuery, "Set up") { Live = false };
            foreach (var view in PictureFolder.Wished.ViewsOf(page))
            {
                (await new PageVisit(program.Address, screen, page, view).LookAsync(PictureFolder.Wished)).ShouldBeEmpty();
            }
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }

    // Nobody looks at all the pages of one person alone: the longest list would decide how long the walk takes.
    private static IEnumerable<(string? Who, ProgramPage[] Pages)> Terminals(DemonstrationPlaces places) =>
        from person in ProgramPages.All(places).GroupBy(page => page.Who)
        from pages in person.Chunk(PagesOfOneTerminal)
        select (person.Key, pages);

    private static async Task KeepCertificateAsync(IPage screen, DemonstrationPlaces places, PictureFolder pictures)
    {
        var file = await screen.APIRequest.GetAsync($"/certificates/{places.Certificate}/file");
        file.Status.ShouldBe(200);
        await pictures.KeepAsync(await file.BodyAsync(), "certificate-pdf");
    }

    // Told as it is found: the whole walk takes minutes.
    private static void Note(IReadOnlyList<string> found, ConcurrentQueue<string> faults)
    {
        foreach (var fault in found)
        {
            TestContext.Current.TestOutputHelper?.WriteLine(fault);
            faults.Enqueue(fault);
        }
    }

    private static async Task<IPage> OpenAsync(Browser browser, DemonstrationProgram demonstration, string? who)
    {
        if (who is null)
        {
            return await browser.OpenPageAsync();
        }

        var (name, password) = demonstration.Secrets(who);
        return await browser.SignOnAsync(name, password);
    }
}
