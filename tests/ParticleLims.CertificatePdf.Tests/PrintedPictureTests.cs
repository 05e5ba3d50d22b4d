using QRCoder;
using Shouldly;
using UglyToad.PdfPig.Core;
using Xunit;

namespace ParticleLims.CertificatePdf.Tests;

public sealed class PrintedPictureTests
{
    [Fact]
    public void The_curve_is_drawn_as_vectors_with_its_labels_as_text()
    {
        using var with = new PrintedPages(Certificates.Typical);
        var points = Certificates.Typical.Curve.Points;
        using var without = new PrintedPages(Certificates.Typical with { Curve = new([points[0], points[^1]], [], [], null) });
        with.Pages[0].GetImages().ShouldBeEmpty();
        var added = PrintedPages.Paths(with.Pages[0]).Count - PrintedPages.Paths(without.Pages[0]).Count;

        // On the same scales: three more discs with bars of three strokes, the fitted line, 12 walls and 4 openings of gates, a size with its drop line.
        added.ShouldBeGreaterThanOrEqualTo((3 * 4) + 1 + 16 + 2);
        with.Text.ShouldContain("Aperture, µm");
        with.Text.ShouldContain("D50 35 to 48 µm");
        with.Text.ShouldContain("≥ 99.5 %");
    }

    [Fact]
    public void The_measured_line_bends_at_the_measured_points()
    {
        using var printed = new PrintedPages(Certificates.Typical);
        var lines = PrintedPages.Paths(printed.Pages[0]).Where(path => path.IsStroked && path.SelectMany(sub => sub.Commands).OfType<PdfSubpath.Line>().Count() == 4).ToList();
        var measured = lines.Select(path => path.SelectMany(sub => sub.Commands).OfType<PdfSubpath.Line>().Select(line => line.To).ToList()).First(points => points[^1].X - points[0].X > 100);
        var points = Certificates.Typical.Curve.Points;

        // Heights in proportion to passing, distances in proportion to the logarithm of the aperture.
        var upper = (measured[3].Y - measured[0].Y) / (points[4].PassingPercent - points[1].PassingPercent);
        var across = (measured[3].X - measured[0].X) / Math.Log(points[4].ApertureMicrometres / points[1].ApertureMicrometres);
        for (var i = 0; i < 4; i++)
        {
            (measured[i].Y - measured[0].Y).ShouldBe(upper * (points[i + 1].PassingPercent - points[1].PassingPercent), 0.05);
            (measured[i].X - measured[0].X).ShouldBe(across * Math.Log(points[i + 1].ApertureMicrometres / points[1].ApertureMicrometres), 0.05);
        }
    }

    [Fact]
    public void The_code_has_the_modules_of_its_address()
    {
        using var printed = new PrintedPages(Certificates.Typical);
        using var expected = QRCodeGenerator.GenerateQrCode(Certificates.Typical.VerifyAddress!, QRCodeGenerator.ECCLevel.M);
        var size = expected.ModuleMatrix.Count;
        var code = PrintedPages.Paths(printed.Pages[0]).Where(path => path.IsFilled && path.Count > 200).ShouldHaveSingleItem();
        var rectangles = code.Select(sub => sub.GetBoundingRectangle()!.Value).ToList();

        // The quiet zone of four modules is not drawn, so the dark modules reach over the rest.
        var (left, top) = (rectangles.Min(box => box.Left), rectangles.Max(box => box.Top));
        var module = (rectangles.Max(box => box.Right) - left) / (size - 8);
        for (var row = 4; row < size - 4; row++)
        {
            for (var column = 4; column < size - 4; column++)
            {
                var (x, y) = (left + ((column - 3.5) * module), top - ((row - 3.5) * module));
                rectangles.Exists(box => x > box.Left && x < box.Right && y > box.Bottom && y < box.Top).ShouldBe(expected.ModuleMatrix[row][column], $"module {row}, {column}");
            }
        }

        module.ShouldBeGreaterThan(0.4 / 25.4 * 72, "a telephone has to resolve a module of the printed code (0.4 mm: common practice, no source)");
    }

    [Fact]
    public void A_draft_has_no_code()
    {
        using var draft = new PrintedPages(Certificates.Draft);
        PrintedPages.Paths(draft.Pages[0]).ShouldNotContain(path => path.IsFilled && path.Count > 200);
    }
}
