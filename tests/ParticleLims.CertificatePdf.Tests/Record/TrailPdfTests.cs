using System.Globalization;
using ParticleLims.CertificatePdf.Record;
using Shouldly;
using UglyToad.PdfPig;
using Xunit;

namespace ParticleLims.CertificatePdf.Tests.Record;

public sealed class TrailPdfTests
{
    [Fact]
    public void Every_event_is_printed_with_its_words_and_values_and_the_head_on_every_page()
    {
        using var document = PdfDocument.Open(TrailPdf.Draw(Asked([.. Enumerable.Range(1, 200).Select(Row)])));
        var pages = document.GetPages().Select(page => PrintedPages.TextOf(page)).ToList();
        pages.Count.ShouldBeGreaterThan(3);
        pages.ShouldAllBe(page => page.Contains("Old and new values", StringComparison.Ordinal) && page.Contains("Tarnfell Milling", StringComparison.Ordinal));
        pages[0].ShouldContain("Audit trail: everything about lot GC-45-0042 and what belongs to it");
        pages[0].ShouldContain("200 events, newest first. Printed 2026-03-02 09:15; times are in Europe/Dublin.");
        var all = string.Concat(pages.Select(PrintedPages.WithoutSpaces));
        foreach (var number in Enumerable.Range(1, 200))
        {
            all.ShouldContain(string.Create(CultureInfo.InvariantCulture, $"R-26-{number:00000}"));
        }

        all.ShouldContain(PrintedPages.WithoutSpaces("Weighing mass: 312.345 g → 312.346 g"));
        pages[^1].ShouldContain(string.Create(CultureInfo.InvariantCulture, $"Page {pages.Count} of {pages.Count}"));
    }

    [Fact]
    public void A_very_long_list_of_values_goes_over_pages_and_a_letter_that_the_font_lacks_stops_nothing()
    {
        var crowded = Row(1) with { Values = string.Join("; ", Enumerable.Range(1, 400).Select(number => FormattableString.Invariant($"Value {number}: – → 漢 {number}"))) };
        using var document = PdfDocument.Open(TrailPdf.Draw(Asked([crowded])));
        PrintedPages.WithoutSpaces(string.Concat(document.GetPages().Select(page => page.Text))).ShouldContain("Value400:");
    }

    [Fact]
    public void Nothing_found_says_so()
    {
        using var document = PdfDocument.Open(TrailPdf.Draw(Asked([])));
        PrintedPages.TextOf(document.GetPage(1)).ShouldContain("Nothing is recorded for this question.");
    }

    private static Trail Asked(IReadOnlyList<TrailRow> rows) => new("Tarnfell Milling", "everything about lot GC-45-0042 and what belongs to it", "Europe/Dublin", "2026-03-02 09:15", false, rows);

    private static TrailRow Row(int number) => new(
        number.ToString(CultureInfo.InvariantCulture), "2026-03-02 08:00:07", "Tove Brandt, Bench 1", "Weighing superseded. Reason: Dust on the frame", FormattableString.Invariant($"run R-26-{number:00000}"), "Weighing mass: 312.345 g → 312.346 g", new string('a', 64));
}
