using ParticleLims.CertificatePdf.Flow;
using ParticleLims.CertificatePdf.Fonts;
using ParticleLims.Pictures.Drawing;
using ParticleLims.Pictures.Tests.Plots;
using PdfSharp.Drawing;
using PdfSharp.Pdf;
using Shouldly;
using UglyToad.PdfPig.Core;
using Xunit;

namespace ParticleLims.CertificatePdf.Tests;

/// <summary>Each picture drawn into a PDF by the code that draws it as SVG, and read back by another library.</summary>
public sealed class PrintedPlotTests
{
    private static readonly PlotLayout _layout = new(515, 300, 7.5);
    private static readonly XPoint _corner = new(40, 60);

    [Fact]
    public void Every_line_of_a_picture_stands_in_the_PDF_where_it_stands_in_the_picture()
    {
        foreach (var plot in Examples.All)
        {
            using var document = Printed(plot);
            var page = document.GetPage(1);
            page.GetImages().ShouldBeEmpty(plot.Title);
            var corners = page.Paths.SelectMany(path => path.SelectMany(Corners)).ToList();
            var drawn = Drawn(plot);
            foreach (var point in drawn.Polylines.SelectMany(line => line.Points).Concat(drawn.Lines.SelectMany(line => new[] { line.From, line.To })))
            {
                var (x, y) = (_corner.X + point.X, (double)page.Height - _corner.Y - point.Y);
                corners.Exists(corner => Math.Abs(corner.X - x) < 0.02 && Math.Abs(corner.Y - y) < 0.02).ShouldBeTrue($"{plot.Title}: ({point.X}, {point.Y})");
            }
        }
    }

    [Fact]
    public void Every_label_of_a_picture_is_text_in_the_PDF()
    {
        foreach (var plot in Examples.All)
        {
            using var document = Printed(plot);
            var text = PrintedPages.WithoutSpaces(document.GetPage(1).Text);
            Drawn(plot).Texts.ShouldAllBe(label => text.Contains(PrintedPages.WithoutSpaces(label.Text), StringComparison.Ordinal), plot.Title);
        }
    }

    [Fact]
    public void Strokes_are_broken_on_paper_as_on_the_page()
    {
        foreach (var plot in Examples.All)
        {
            using var document = Printed(plot);
            var broken = Drawn(plot).Polylines.Select(line => line.Pen).Concat(Drawn(plot).Lines.Select(line => line.Pen)).Count(pen => pen.Dash != PlotDash.Solid);
            document.GetPage(1).Paths.Count(path => path.IsStroked && path.LineDashPattern is { } pattern && pattern.Array.Count > 0).ShouldBe(broken, plot.Title);
        }
    }

    private static IEnumerable<PdfPoint> Corners(PdfSubpath path) => path.Commands.SelectMany(command => command switch
    {
        PdfSubpath.Move move => [move.Location],
        PdfSubpath.Line line => [line.From, line.To],
        _ => Array.Empty<PdfPoint>(),
    });

    private static RecordingSurface Drawn(IPlot plot)
    {
        var surface = new RecordingSurface();
        plot.Draw(surface, _layout);
        return surface;
    }

    private static UglyToad.PdfPig.PdfDocument Printed(IPlot plot)
    {
        LatoFonts.Install();
        using var type = new Typesetter(Paper.A4, ParticleLims.Laboratory.Certificates.Texts.CertificateTexts.In("en"));
        using var document = new PdfDocument();
        using (var graphics = XGraphics.FromPdfPage(document.AddPage()))
        {
            plot.Draw(new PdfPlotSurface(graphics, type, _corner), _layout);
        }

        using var bytes = new MemoryStream();
        document.Save(bytes, closeStream: false);
        return UglyToad.PdfPig.PdfDocument.Open(bytes.ToArray());
    }
}
