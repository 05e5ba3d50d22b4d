using Shouldly;
using Xunit;

namespace ParticleLims.CertificatePdf.Tests;

public sealed class PrintedFileTests
{
    [Fact]
    public void Fonts_are_embedded_and_hold_only_the_letters_used()
    {
        using var printed = new PrintedPages(Certificates.Typical);
        var fonts = printed.Pages[0].Letters.Select(letter => letter.FontName!).Distinct().ToList();
        fonts.Count.ShouldBe(2);

        // ISO 32000-1, 9.6.4: the name of a font subset begins with six upper-case letters and a plus sign.
        fonts.ShouldAllBe(font => font.IndexOf("Lato", StringComparison.Ordinal) == 7 && font[6] == '+' && font.Take(6).All(char.IsAsciiLetterUpper));
        Count(printed.Objects, "/FontFile2").ShouldBe(fonts.Count);
        printed.Bytes.Length.ShouldBeLessThan(150_000);
    }

    [Fact]
    public void The_file_is_tagged_and_tells_its_language_and_title()
    {
        using var printed = new PrintedPages(Certificates.Long);
        var objects = printed.Objects;
        printed.Title.ShouldBe("Certificate of analysis C-26-00042");
        objects.ShouldContain("/Lang(en-GB)");
        objects.ShouldContain("/StructTreeRoot");
        objects.ShouldContain("/DisplayDocTitle true");
        Count(objects, "/S/Figure").ShouldBe(2);
        Count(objects, "/S/H1").ShouldBe(1);
        Count(objects, "/S/Table").ShouldBe(3, "the results on both pages, and the sieves");
        Count(objects, "/S/TH").ShouldBe(7 + 7 + 5);
        Count(objects, "/S/TD").ShouldBe((40 * 7) + (20 * 5));
    }

    [Fact]
    public void A_number_with_markup_leaves_the_metadata_well_formed()
    {
        using var printed = new PrintedPages(Certificates.Typical with { Number = "C<1>&2" });
        printed.Text.ShouldContain("C<1>&2");
        printed.Title.ShouldBe("Certificate of analysis C12");
        var from = printed.Objects.IndexOf("<x:xmpmeta", StringComparison.Ordinal);
        var to = printed.Objects.IndexOf("</x:xmpmeta>", StringComparison.Ordinal);
        System.Xml.Linq.XElement.Parse(printed.Objects[from..to] + "</x:xmpmeta>").Descendants().ShouldContain(element => element.Value == "Certificate of analysis C12");
    }

    [Fact]
    public void Certificates_drawn_at_the_same_time_do_not_disturb_each_other()
    {
        var writer = Certificates.Writer;
        var numbers = Enumerable.Range(1, 24).Select(i => $"C-26-{i:00000}").ToList();
        var drawn = numbers.AsParallel().WithDegreeOfParallelism(6).Select(number => (number, Bytes: writer.Write(Certificates.Typical with { Number = number }))).ToList();
        foreach (var (number, bytes) in drawn)
        {
            using var read = UglyToad.PdfPig.PdfDocument.Open(bytes);
            PrintedPages.TextOf(read.GetPage(1)).ShouldContain($"End of certificate {number}");
        }
    }

    [Fact]
    public void A_reprint_says_the_same()
    {
        using var first = new PrintedPages(Certificates.Typical);
        using var second = new PrintedPages(Certificates.Typical);
        second.Text.ShouldBe(first.Text);
        second.Pages[0].Letters.Select(letter => letter.StartBaseLine).ShouldBe(first.Pages[0].Letters.Select(letter => letter.StartBaseLine));
    }

    private static int Count(string text, string part)
    {
        var count = 0;
        for (var at = text.IndexOf(part, StringComparison.Ordinal); at >= 0; at = text.IndexOf(part, at + 1, StringComparison.Ordinal))
        {
            count += at + part.Length < text.Length && char.IsAsciiLetterOrDigit(text[at + part.Length]) ? 0 : 1;
        }

        return count;
    }
}
