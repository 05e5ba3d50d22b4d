using System.Security.Cryptography;
using System.Text.Json.Nodes;
using ParticleLims.Laboratory.Certificates;
using ParticleLims.Laboratory.Certificates.Texts;
using ParticleLims.Laboratory.Templates;
using ParticleLims.TestLaboratory;
using Shouldly;
using Xunit;

namespace ParticleLims.CertificatePdf.Tests;

/// <summary>Certificates by templates: order, omissions, own texts, logo and kind, in four languages on two sheets, read back by another library.</summary>
public sealed class TemplateTests
{
    private static readonly string[] _usual = ["particulars", "results", "sieves", "net", "testing", "notes", "signatures"];
    private static readonly string[] _turned = ["signatures", "notes", "testing", "net", "sieves", "results", "particulars"];
    private static readonly string[] _optional = ["identification", "madeOn", "shelfLife", "container", "quantity", "customerReference", "sampling", "singleRuns", "curve", "conditions", "equipment", "wholeHeadHash"];

    public static TheoryData<string, string> Combinations => [.. from language in CertificateTexts.Languages from paper in new[] { "A4", "Letter" } select (language, paper)];

    public static TheoryData<string> Logos => ["baseline", "progressive", "grey jpeg", "png 0", "png 2", "png 3", "png 4", "png 6"];

    private static CertificateLayout Standard { get; } = new("STANDARD", 1, "analysis", _usual, [], null, null, null, null, null);

    [Fact]
    public void The_names_in_a_layout_are_those_of_the_templates()
    {
        _usual.ShouldBe(PaperBlockWords.Usual.Select(Name));
        _optional.ShouldBe(PaperFields.Optional.Select(Name));
        CertificateTexts.Languages.ShouldBe(PaperTexts.Languages);
        foreach (var kind in Enum.GetValues<PaperKind>().Where(kind => kind != PaperKind.Analysis))
        {
            CertificateTexts.In("en").Keys.ShouldContain("title." + Name(kind));
            CertificateTexts.In("en").Keys.ShouldContain("style." + Name(kind));
        }

        static string Name<T>(T value)
            where T : struct, Enum => System.Text.Json.JsonNamingPolicy.CamelCase.ConvertName(value.ToString());
    }

    [Theory]
    [MemberData(nameof(Combinations))]
    public void The_standard_template_says_what_was_said_before_there_were_templates_and_which_template_it_is(string language, string paper)
    {
        // With room for a sentence more on the last page.
        var content = Certificates.Typical with { Language = language, Paper = paper, Results = [.. Certificates.Typical.Results.SkipLast(1)] };
        using var before = new PrintedPages(content);
        using var after = new PrintedPages(content with { Layout = Standard });
        after.Pages.Count.ShouldBe(before.Pages.Count);
        var sentence = CertificateTexts.In(language).With("about.template", "STANDARD", 1);
        after.Text.ShouldContain(sentence);

        // By words: the further sentence may take the small print across to the next page.
        (before.Text + " " + sentence).Split(' ').Order(StringComparer.Ordinal).ShouldBe(after.Text.Split(' ').Order(StringComparer.Ordinal));
    }

    [Theory]
    [MemberData(nameof(Combinations))]
    public void A_template_turns_the_blocks_round_and_leaves_out_what_may_be_left_out(string language, string paper)
    {
        var texts = CertificateTexts.In(language);
        using var printed = new PrintedPages(Certificates.Typical with { Language = language, Paper = paper, Layout = Standard with { Blocks = _turned, Omitted = _optional, Note = "A word at the side" } });
        string[] headings = [texts["title"], texts["signatures"], texts["notes.note"], texts["testing"], texts.With("sieves.alone.standard", "ISO 3310-1"), texts["column.characteristic"], texts["customer"], texts.With("end", "C-26-00042")];
        var text = printed.Text;
        var places = headings.Select(heading => text.LastIndexOf(heading, StringComparison.Ordinal)).ToList();
        places.ShouldAllBe(place => place >= 0);
        places.ShouldBeInOrder();
        foreach (var gone in new[] { "2026-11-20", "18 000 kg", "PO 77-3108", "M. Aldous", "R-26-00811", "mean differential pressure", "AJ-01", Certificates.Typical.RecordHead.Hash, texts["plot.aperture"] })
        {
            text.ShouldNotContain(gone);
        }

        text.ShouldContain(Certificates.Typical.RecordHead.Hash[..16] + "…");
        foreach (var kept in new[] { "C-26-00042", "Tarnfell Milling", "Veldt Surface Coatings", "GC-26-0311", "S-26-00417", "sealed pouch", "79.9", "TS-063-02", "12.004 g", "Guarded acceptance", "All four results conform", "Petra Quill", "7KQ2-M4XD", texts["about.items"], texts["about.accreditation"] })
        {
            PrintedPages.WithoutSpaces(text).ShouldContain(PrintedPages.WithoutSpaces(kept));
        }
    }

    [Theory]
    [MemberData(nameof(Combinations))]
    public void Forty_limits_long_texts_and_the_letters_of_Greek_Polish_and_Turkish_are_printed_whole_inside_the_sheet(string language, string paper)
    {
        const string Letters = "ΑΒΓΔΕΖΗΘΙΚΛΜΝΞΟΠΡΣΤΥΦΧΨΩ αβγδεζηθικλμνξοπρςστυφχψω ĄĆĘŁŃÓŚŹŻ ąćęłńóśźż ÇĞİÖŞÜ çğıöşü";
        var storage = string.Join(' ', Enumerable.Range(1, 40).Select(number => $"dry-and-cool-{number}"));
        var layout = Standard with { Blocks = _turned, Storage = storage, Safety = Letters, Accreditation = "Tarnfell accreditation no. 4711, air-jet sieving", Note = new string('x', 300) };
        using var printed = new PrintedPages(Certificates.Long with { Language = language, Paper = paper, Customer = Certificates.Typical.Customer with { Name = Letters }, Layout = layout });
        var (text, texts) = (PrintedPages.WithoutSpaces(printed.Text), CertificateTexts.In(language));
        foreach (var whole in Certificates.Long.Results.Select(line => line.Characteristic).Concat([storage, Letters, layout.Accreditation!, layout.Note!, texts["notes.storage"], texts["notes.safety"], texts["notes.accreditation"]]))
        {
            text.ShouldContain(PrintedPages.WithoutSpaces(whole));
        }

        printed.Text.ShouldNotContain(texts["about.accreditation"], customMessage: "an accreditation stands there instead of its absence");
        printed.Pages.SelectMany(page => page.Letters.Select(letter => (letter, page)))
            .ShouldAllBe(pair => pair.letter.BoundingBox.Left >= 30 && pair.letter.BoundingBox.Right <= pair.page.Width - 20 && pair.letter.BoundingBox.Bottom >= 15 && pair.letter.BoundingBox.Top <= pair.page.Height - 15);
    }

    [Theory]
    [MemberData(nameof(Combinations))]
    public void A_kind_in_the_style_of_another_standard_says_so_in_the_title_on_every_page_and_in_the_properties(string language, string paper)
    {
        var texts = CertificateTexts.In(language);
        foreach (var kind in new[] { "testReport", "inspectionCertificate" })
        {
            using var printed = new PrintedPages(Certificates.Long with { Language = language, Paper = paper, Layout = Standard with { Kind = kind } });
            printed.Pages.ShouldAllBe(page => PrintedPages.TextOf(page).Contains(texts["title." + kind], StringComparison.Ordinal));
            PrintedPages.WithoutSpaces(printed.Text).ShouldContain(PrintedPages.WithoutSpaces(texts["style." + kind]));
            printed.Title.ShouldBe($"{texts["title." + kind]} C-26-00042");
        }
    }

    [Theory]
    [MemberData(nameof(Logos))]
    public void A_logo_stands_in_the_masthead_with_its_words_for_those_who_do_not_see_it_and_no_viewer_smoothes_it(string which)
    {
        var file = which switch { "baseline" => LogoFiles.Baseline, "progressive" => LogoFiles.Progressive, "grey jpeg" => LogoFiles.Grey, _ => LogoFiles.Png(colours: which[^1] - '0') };
        var picture = LogoPicture.Of(file);
        var content = Certificates.Typical with { Layout = Standard with { Logo = new LayoutLogo(picture.Sha256, picture.Width, picture.Height, "A mill wheel over water (Tarnfell)") } };
        using var read = UglyToad.PdfPig.PdfDocument.Open(Certificates.Writer.DrawSealed(content, CertificateIssue.WriteContent(content), picture.Bytes));
        var page = read.GetPage(1);
        var drawn = page.GetImages().ShouldHaveSingleItem();
        (drawn.WidthInSamples, drawn.HeightInSamples, drawn.Interpolate).ShouldBe((picture.Width, picture.Height, false));
        drawn.BoundingBox.Right.ShouldBe(page.Width - 40, 0.5);
        drawn.BoundingBox.Height.ShouldBeLessThanOrEqualTo(40.01);
        (drawn.BoundingBox.Width / drawn.BoundingBox.Height).ShouldBe((double)picture.Width / picture.Height, 0.02);
        using var plain = new PrintedPages(content, logo: picture.Bytes);
        plain.Objects.ShouldContain("A mill wheel over water \\(Tarnfell\\)");
    }

    [Fact]
    public void A_certificate_is_not_drawn_with_another_logo_or_without_the_one_that_it_names()
    {
        var picture = LogoPicture.Of(LogoFiles.Png());
        var content = Certificates.Typical with { Layout = Standard with { Logo = new LayoutLogo(picture.Sha256, picture.Width, picture.Height, "A mill wheel") } };
        Should.Throw<CertificateNotPrintableException>(() => Certificates.Writer.Draw(content, logo: LogoFiles.Png(height: 41))).Message.ShouldContain("logo");
        Should.Throw<CertificateNotPrintableException>(() => Certificates.Writer.Draw(content)).Message.ShouldContain("logo");
    }

    [Fact]
    public void Of_several_samples_what_speaks_of_the_paper_stands_before_or_after_all_of_them_as_the_template_has_it()
    {
        var several = Certificates.Typical with { Overall = "All results of both samples conform.", Further = [Certificates.Typical.Items[0]] };
        using var last = new PrintedPages(several with { Layout = Standard with { Note = "A word at the side", Omitted = ["quantity"] } });
        last.Text.IndexOf("A word at the side", StringComparison.Ordinal).ShouldBeGreaterThan(last.Text.LastIndexOf("Guarded acceptance", StringComparison.Ordinal));
        last.Text.ShouldNotContain("18 000 kg");
        using var first = new PrintedPages(several with { Layout = Standard with { Note = "A word at the side", Blocks = _turned } });
        first.Text.IndexOf("A word at the side", StringComparison.Ordinal).ShouldBeLessThan(first.Text.IndexOf("Samples on this certificate", StringComparison.Ordinal));
        Count(first.Text, "Guarded acceptance").ShouldBe(2);
        Count(first.Text, "Petra Quill").ShouldBe(1);
    }

    [Fact]
    public void A_content_without_a_layout_keeps_its_bytes_and_one_with_it_fits_the_published_schema()
    {
        CertificateIssue.WriteContent(Certificates.Typical).ShouldNotContain("layout");
        var content = Certificates.Typical with { Layout = Standard with { Kind = "testReport", Omitted = _optional, Logo = new LayoutLogo(new string('a', 64), 120, 40, "A mill wheel"), Storage = "Dry" } };
        var twin = CertificateIssue.WriteContent(content);
        CertificateIssue.WriteContent(CertificateIssue.ReadContent(twin)).ShouldBe(twin);
        Sealing.TwinTests.Errors(JsonNode.Parse(twin)!).ShouldBeEmpty();
        Sealing.TwinTests.Errors(JsonNode.Parse(twin.Replace("\"testReport\"", "\"unheardOf\"", StringComparison.Ordinal))!).ShouldNotBeEmpty();
        Convert.ToHexStringLower(SHA256.HashData(LogoPicture.Of(LogoFiles.Png()).Bytes)).ShouldBe(LogoPicture.Of(LogoFiles.Png()).Sha256);
    }

    private static int Count(string text, string part) => text.Split(part).Length - 1;
}
