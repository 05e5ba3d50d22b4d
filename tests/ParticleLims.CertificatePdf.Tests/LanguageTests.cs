using System.Text.RegularExpressions;
using ParticleLims.Laboratory.Certificates.Texts;
using Shouldly;
using Xunit;

namespace ParticleLims.CertificatePdf.Tests;

/// <summary>Four languages, two sheets, three kinds of certificate: all is printed, nothing is cut.</summary>
public sealed partial class LanguageTests
{
    public static TheoryData<string, string> Combinations => [.. from language in CertificateTexts.Languages from paper in new[] { "A4", "Letter" } select (language, paper)];

    [GeneratedRegex(@"\{\d\}", RegexOptions.None, matchTimeoutMilliseconds: 1_000)]
    private static partial Regex Place { get; }

    [Fact]
    public void Every_language_has_every_text_with_the_same_places_to_fill_in()
    {
        var english = CertificateTexts.In("en");
        foreach (var texts in CertificateTexts.Languages.Select(CertificateTexts.In))
        {
            texts.Keys.ShouldBe(english.Keys, ignoreOrder: true);
            foreach (var key in english.Keys)
            {
                texts[key].ShouldNotBeNullOrWhiteSpace();
                Places(texts[key]).ShouldBe(Places(english[key]), $"{texts.Language}, {key}");
            }
        }
    }

    [Fact]
    public void A_language_without_texts_is_refused() => Should.Throw<ArgumentOutOfRangeException>(() => CertificateTexts.In("xx")).Message.ShouldContain("English (en)");

    [Theory]
    [MemberData(nameof(Combinations))]
    public void Every_label_and_every_value_is_printed_inside_the_sheet(string language, string paper)
    {
        var texts = CertificateTexts.In(language);
        foreach (var content in new[] { Certificates.Typical, Certificates.Long, Certificates.Draft }.Select(one => one with { Language = language, Paper = paper }))
        {
            using var printed = new PrintedPages(content, "4be1c09d2f7785aa13c6");
            var text = PrintedPages.WithoutSpaces(printed.Text);
            string[] labels =
            [
                "title", "customer", "product", "lot", "made", "quantity", "reference", "specification", "method", "sample", "receipt", "taken", "received", "tested", "results", "column.characteristic", "column.unit",
                "column.lower", "column.upper", "column.result", "column.uncertainty", "column.verdict", "column.aperture", "column.serial", "plot.aperture", "plot.passing", "plot.measured", "testing", "basis", "runs", "conditions",
                "equipment", "rule", "signatures", "about.items", "about.customer", "about.accreditation", "demonstration",
            ];
            labels.ShouldAllBe(label => text.Contains(PrintedPages.WithoutSpaces(texts[label]), StringComparison.Ordinal));
            content.Results.SelectMany(line => new[] { line.Characteristic, line.Lower, line.Upper, line.Result, line.Verdict }).ShouldAllBe(value => text.Contains(PrintedPages.WithoutSpaces(value), StringComparison.Ordinal));
            for (var page = 1; page <= printed.Pages.Count; page++)
            {
                text.ShouldContain(PrintedPages.WithoutSpaces(texts.With("page", page, printed.Pages.Count)));
            }

            (paper == "Letter" ? (612d, 792d) : (595.276, 841.89)).ShouldBe((Math.Round((double)printed.Pages[0].Width, 3), Math.Round((double)printed.Pages[0].Height, 3)));
            printed.Pages.SelectMany(page => page.Letters.Select(letter => (letter, page))).Where(pair => pair.letter.PointSize < 100)
                .ShouldAllBe(pair => pair.letter.BoundingBox.Left >= 30 && pair.letter.BoundingBox.Right <= pair.page.Width - 20 && pair.letter.BoundingBox.Bottom >= 15 && pair.letter.BoundingBox.Top <= pair.page.Height - 15);
            printed.Objects.ShouldContain($"/Lang({texts["language.tag"]})");
            printed.Title.ShouldStartWith(texts["title"]);
        }
    }

    [Theory]
    [InlineData("en", "0.5")]
    [InlineData("de", "0,5")]
    [InlineData("fr", "0,5")]
    [InlineData("es", "0,5")]
    public void The_numbers_of_the_picture_have_the_decimal_sign_of_the_language(string language, string label)
    {
        var points = Certificates.Typical.Curve.Points;
        var fine = Certificates.Typical with { Language = language, Curve = new([new(0.5, 20, null), .. points], [], [], null) };
        using var printed = new PrintedPages(fine);
        printed.Text.ShouldContain(label);
    }

    [Fact]
    public void The_Rosin_Rammler_net_is_drawn_where_it_is_wanted_and_a_line_was_fitted()
    {
        using var with = new PrintedPages(Certificates.Typical with { RosinRammlerNet = true });
        with.Text.ShouldContain("Residue, %");
        with.Pages.Count.ShouldBe(2);
        using var without = new PrintedPages(Certificates.Typical with { RosinRammlerNet = true, Curve = Certificates.Typical.Curve with { RosinRammler = null } });
        without.Text.ShouldNotContain("Residue, %");
    }

    private static IEnumerable<string> Places(string text) => Place.Matches(text).Select(match => match.Value).Order(StringComparer.Ordinal);
}
