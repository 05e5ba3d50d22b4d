using System.Text.RegularExpressions;
using ParticleLims.Pictures.Drawing;
using PdfSharp.Drawing;

namespace ParticleLims.CertificatePdf.Flow;

/// <summary>Draws a plot as vectors on a page, from its upper left corner on; names and readings stay on the screen.</summary>
internal sealed partial class PdfPlotSurface(XGraphics graphics, Typesetter type, XPoint corner) : IPlotSurface
{
    private const string Bars = "measured (bars: ";
    private static readonly Dictionary<string, string> _words = new(StringComparer.Ordinal)
    {
        ["Aperture, µm"] = "plot.aperture", ["Passing, %"] = "plot.passing", ["Residue, %"] = "plot.residue", ["measured"] = "plot.measured", ["limit"] = "plot.limit", ["read from the curve"] = "plot.read",
    };

    [GeneratedRegex(@"(?<=\d)\.(?=\d)", RegexOptions.None, matchTimeoutMilliseconds: 1_000)]
    private static partial Regex DecimalPoint { get; }

    public void Line(PlotPoint from, PlotPoint to, PlotPen pen) => graphics.DrawLine(Pen(pen), At(from), At(to));

    public void Polyline(IReadOnlyList<PlotPoint> points, PlotPen pen)
    {
        if (points.Count >= 2)
        {
            graphics.DrawLines(Pen(pen), [.. points.Select(At)]);
        }
    }

    public void Shape(IReadOnlyList<PlotPoint> outline, PlotInk ink) => graphics.DrawPolygon(new XSolidBrush(PlotColours.Of(ink)), [.. outline.Select(At)], XFillMode.Winding);

    public void Marker(PlotPoint centre, PlotMarker marker, double size, PlotInk ink)
    {
        var brush = new XSolidBrush(PlotColours.Of(ink));
        if (marker == PlotMarker.Disc)
        {
            graphics.DrawEllipse(brush, corner.X + centre.X - (size / 2), corner.Y + centre.Y - (size / 2), size, size);
            return;
        }

        XPoint[] outline = [.. MarkerOutline.Corners(marker, centre, size).Select(At)];
        if (MarkerOutline.IsOpen(marker))
        {
            graphics.DrawPolygon(new XPen(PlotColours.Of(ink), size * 0.2), XBrushes.White, outline, XFillMode.Winding);
        }
        else
        {
            graphics.DrawPolygon(brush, outline, XFillMode.Winding);
        }
    }

    public void Text(PlotPoint at, string text, PlotText style)
    {
        var lettering = new Lettering(style.Size, PlotColours.Of(style.Ink), style.Bold);
        var printed = Typesetter.Printable(Localised(text));
        if (printed.Length == 0)
        {
            return;
        }

        var width = style.Anchor == PlotAnchor.Start ? 0 : type.Width(printed, lettering);
        var left = corner.X + at.X - (style.Anchor == PlotAnchor.Middle ? width / 2 : width);
        graphics.DrawString(printed + " ", type.Font(lettering), new XSolidBrush(lettering.Colour), left, corner.Y + at.Y);
    }

    public IDisposable Clip(PlotArea area)
    {
        var state = graphics.Save();
        graphics.IntersectClip(new XRect(corner.X + area.Left, corner.Y + area.Top, area.Width, area.Height));
        return new Ending(() => graphics.Restore(state));
    }

    public IDisposable Named(string name) => Ending.Nothing;

    public IDisposable Reading(string reading) => Ending.Nothing;

    /// <summary>The words that a plot writes by itself, and the decimal sign of its numbers.</summary>
    private string Localised(string text)
    {
        var texts = type.Texts;
        if (texts.Language == "en")
        {
            return text;
        }

        // The legend says behind the word by what the bars were multiplied; "k" needs no translation.
        var bars = text.StartsWith(Bars, StringComparison.Ordinal) ? texts["plot.measured"] + " (" + text[Bars.Length..] : text;
        return _words.TryGetValue(bars, out var key) ? texts[key] : DecimalPoint.Replace(bars, texts.DecimalSign.ToString());
    }

    private XPoint At(PlotPoint point) => new(corner.X + point.X, corner.Y + point.Y);

    private static XPen Pen(PlotPen pen)
    {
        var drawn = new XPen(PlotColours.Of(pen.Ink), pen.Width) { LineJoin = XLineJoin.Round };
        if (pen.Dash == PlotDash.Dashed)
        {
            drawn.DashPattern = [5, 3];
        }
        else if (pen.Dash == PlotDash.Dotted)
        {
            drawn.LineCap = XLineCap.Round;
            drawn.DashPattern = [0.01, 2.6];
        }

        return drawn;
    }

    private sealed class Ending(Action end) : IDisposable
    {
        public static Ending Nothing { get; } = new(() => { });

        public void Dispose() => end();
    }
}
