using ParticleLims.Laboratory.Certificates;
using Shouldly;
using UglyToad.PdfPig.Content;
using Xunit;

namespace ParticleLims.CertificatePdf.Tests;

public sealed class PrintedLayoutTests
{
    private const double LeftMargin = 57;
    private const double RightMargin = 40;

    [Fact]
    public void Forty_limits_run_over_pages_and_nothing_is_cut()
    {
        using var printed = new PrintedPages(Certificates.Long);
        printed.Pages.Count.ShouldBeGreaterThan(1);
        foreach (var line in Certificates.Long.Results)
        {
            Count(printed.Text, $"{line.Characteristic} % {line.Lower} {line.Upper} {line.Result} ± 0.40 {line.Verdict}").ShouldBe(1);
        }

        foreach (var sieve in Certificates.Long.Sieves)
        {
            Count(printed.Text, $" {sieve.Aperture} {sieve.Serial} {sieve.Residue} {sieve.Retained} {sieve.Passing} ").ShouldBe(1);
        }

        AllInside(printed);
    }

    [Fact]
    public void Every_page_has_the_number_its_place_and_the_head_of_a_table_that_goes_on()
    {
        using var printed = new PrintedPages(Certificates.Long);
        for (var i = 0; i < printed.Pages.Count; i++)
        {
            var text = PrintedPages.TextOf(printed.Pages[i]);
            text.ShouldContain("C-26-00042, revision 1");
            text.ShouldContain($"page {i + 1} of {printed.Pages.Count}");
        }

        PrintedPages.TextOf(printed.Pages[1]).ShouldContain("Characteristic Unit Lower limit Upper limit Result Uncertainty Verdict Characteristic no. ");
        Count(printed.Text, "End of certificate C-26-00042").ShouldBe(1);
        PrintedPages.TextOf(printed.Pages[^1]).ShouldContain("End of certificate C-26-00042");
    }

    [Theory]
    [InlineData(1)]
    [InlineData(12)]
    [InlineData(28)]
    [InlineData(33)]
    [InlineData(34)]
    [InlineData(35)]
    [InlineData(90)]
    [InlineData(160)]
    public void Any_number_of_limits_is_printed_whole(int limits)
    {
        var results = Enumerable.Range(1, limits).Select(i => new ResultLine($"Limit no. {i:000}.", "%", "1.0", "", "2.0", null, "conforms")).ToList();
        using var printed = new PrintedPages(Certificates.Typical with { Results = results });
        results.ShouldAllBe(line => Count(printed.Text, line.Characteristic) == 1);
        AllInside(printed);
    }

    [Fact]
    public void A_heading_never_stands_last_on_a_page()
    {
        for (var limits = 8; limits < 40; limits++)
        {
            var results = Enumerable.Repeat(Certificates.Typical.Results[0], limits).ToList();
            using var printed = new PrintedPages(Certificates.Typical with { Results = results });
            foreach (var page in printed.Pages)
            {
                var body = PrintedPages.TextOf(page).Split("C-26-00042, revision 1")[0].Trim();
                foreach (var heading in new[] { "Results", "and distribution curve", "Testing and judgement", "Electronic signatures", "Verdict" })
                {
                    body.EndsWith(heading, StringComparison.Ordinal).ShouldBeFalse($"{heading} stands last with {limits} limits");
                }
            }
        }
    }

    [Fact]
    public void The_end_never_stands_alone_and_a_lower_curve_saves_a_page_that_would_hold_little()
    {
        var (pages, one, two) = (0, 0, 0);
        for (var sentences = 0; sentences < 30; sentences++)
        {
            var remarks = Enumerable.Range(1, sentences).Select(i => $"Remark no. {i} on how the lot was tested.").ToList();
            using var printed = new PrintedPages(Certificates.Typical with { Remarks = remarks });
            printed.Pages.Count.ShouldBeGreaterThanOrEqualTo(pages, "more words never take fewer pages");
            pages = printed.Pages.Count;
            (one, two) = (one + (pages == 1 ? 1 : 0), two + (pages == 2 ? 1 : 0));
            PrintedPages.TextOf(printed.Pages[^1]).ShouldContain("Electronic signatures");
            AllInside(printed);
        }

        one.ShouldBeGreaterThan(0);
        two.ShouldBeGreaterThan(0);
    }

    [Fact]
    public void Long_names_are_wrapped_and_stay_whole()
    {
        var name = string.Join(' ', Enumerable.Range(1, 40).Select(i => $"Name{i}"));
        var word = string.Concat(Enumerable.Range(100, 100));
        var content = Certificates.Typical with
        {
            Issuer = new(name, [word], name),
            Customer = new(word, [name, word], name),
            Product = Certificates.Typical.Product with { Name = word },
            Results = [new(word, name, "1.0", "2.0", "below 20", "± 0.4", name)],
            Sieves = [new("20", word, name, "1.0", "2.0", "3.0")],
            Signatures = [new(name, word, name, Certificates.Typical.IssuedAt)],
            Conformity = word,
            VerifyAddress = "https://lims.tarnfell.example/" + word,
        };
        using var printed = new PrintedPages(content);
        var text = PrintedPages.WithoutSpaces(printed.Text);
        Count(text, word).ShouldBeGreaterThanOrEqualTo(8);
        Count(text, PrintedPages.WithoutSpaces(name)).ShouldBeGreaterThanOrEqualTo(6);
        AllInside(printed);
    }

    [Fact]
    public void Texts_longer_than_a_page_go_on_on_the_next()
    {
        var words = Enumerable.Range(1, 4000).Select(i => $"w{i}").ToList();
        var endless = string.Join(' ', words);
        var content = Certificates.Typical with { Remarks = [endless], Conformity = endless, Results = [Certificates.Typical.Results[0] with { Characteristic = endless }], Customer = new("Veldt", [endless], "") };
        using var printed = new PrintedPages(content);
        var found = printed.Text.Split(' ').CountBy(word => word).ToDictionary();
        words.ShouldAllBe(word => found.GetValueOrDefault(word) == 4);
        AllInside(printed);
    }

    [Fact]
    public void Many_signatures_are_all_printed()
    {
        var signatures = Enumerable.Range(1, 11).Select(i => new SignatureLine("Approved", $"Signer {i:00}", "Quality manager", Certificates.Typical.IssuedAt)).ToList();
        using var printed = new PrintedPages(Certificates.Typical with { Signatures = signatures });
        signatures.ShouldAllBe(signature => Count(printed.Text, signature.PrintedName) == 1);
        AllInside(printed);
    }

    [Fact]
    public void Decimal_points_of_a_column_stand_one_below_the_other()
    {
        string[] values = ["7.5", "125.25", "0.004", "≥ 99.9"];
        using var printed = new PrintedPages(Certificates.Typical with { Results = [.. values.Select(value => new ResultLine("Value", "", "", "", value, null, "conforms"))] });
        var bold = printed.Pages[0].Letters.Where(letter => letter.FontName!.Contains("Bold", StringComparison.Ordinal)).ToList();
        var rows = printed.Pages[0].GetWords().Where(word => word.Text == "Value").Select(word => word.BoundingBox.Bottom).ToList();
        rows.Count.ShouldBe(4);
        var points = rows.Select(row => bold.Single(letter => letter.Value == "." && Math.Abs(letter.StartBaseLine.Y - row) < 3).StartBaseLine.X).ToList();
        points.ShouldAllBe(x => Math.Abs(x - points[0]) < 0.05);
    }

    private static void AllInside(PrintedPages printed)
    {
        foreach (var page in printed.Pages)
        {
            page.Letters.Where(letter => letter.Value != " ").ShouldAllBe(letter => Inside(page, letter));
        }
    }

    private static bool Inside(Page page, Letter letter) =>
        letter.BoundingBox.Left >= LeftMargin && letter.BoundingBox.Right <= page.Width - RightMargin + 0.5 && letter.BoundingBox.Bottom >= 20 && letter.BoundingBox.Top <= page.Height - 20;

    private static int Count(string text, string part) => text.Split(part).Length - 1;
}
