using Shouldly;
using Xunit;

namespace ParticleLims.CertificatePdf.Tests;

/// <summary>A certificate that speaks of several samples.</summary>
public sealed class SeveralSamplesTests
{
    [Fact]
    public void It_lists_its_samples_first_and_then_states_each_for_itself_in_order()
    {
        using var printed = new PrintedPages(Certificates.Several);
        string[] inOrder =
        [
            "except: lot GC-26-0312, sample S-26-00419: D50.", "Veldt Surface Coatings", "Samples on this certificate", "1 GC-26-0311 S-26-00417", "2 GC-26-0311 S-26-00418", "3 GC-26-0312 S-26-00419",
            "1 of 3: lot GC-26-0311, sample S-26-00417", "All four results conform", "39.2", "2 of 3: lot GC-26-0311, sample S-26-00418", "39.2", "3 of 3: lot GC-26-0312, sample S-26-00419", "48.6", "does not conform",
            "Concession: the customer accepts D50 up to 49 µm for this delivery.", "Reviewed Inge Marlow", "End of certificate C-26-00042",
        ];
        var (text, from) = (printed.Text, 0);
        foreach (var expected in inOrder)
        {
            var found = text.IndexOf(expected, from, StringComparison.Ordinal);
            found.ShouldBeGreaterThanOrEqualTo(0, $"'{expected}' is missing or out of order after: …{text[Math.Max(0, from - 60)..from]}");
            from = found + expected.Length;
        }
    }

    [Theory]
    [InlineData("en")]
    [InlineData("de")]
    [InlineData("fr")]
    [InlineData("es")]
    public void Nothing_of_it_leaves_the_sheet_and_every_page_says_which_it_is(string language)
    {
        using var printed = new PrintedPages(Certificates.Several with { Language = language, Paper = "Letter", RosinRammlerNet = true });
        printed.Pages.Count.ShouldBeGreaterThan(2);
        foreach (var (page, number) in printed.Pages.Select((page, i) => (page, i + 1)))
        {
            page.Letters.ShouldAllBe(letter => letter.BoundingBox.Left >= 0 && letter.BoundingBox.Right <= page.Width && letter.BoundingBox.Bottom >= 0 && letter.BoundingBox.Top <= page.Height);
            PrintedPages.TextOf(page).ShouldContain($"{number} {(language switch { "en" => "of", "de" => "von", "fr" => "sur", _ => "de" })} {printed.Pages.Count}");
        }
    }
}
