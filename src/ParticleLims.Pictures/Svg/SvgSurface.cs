using System.Globalization;
using System.Text;
using ParticleLims.Pictures.Drawing;

namespace ParticleLims.Pictures.Svg;

/// <summary>Collects SVG elements: the picture itself, and above it the readings that can be reached by keyboard.</summary>
internal sealed class SvgSurface(string id) : IPlotSurface
{
    private readonly StringBuilder _picture = new();
    private readonly StringBuilder _readings = new();
    private readonly StringBuilder _definitions = new();
    private bool _inReading;
    private int _clips;

    public string Picture => _picture.ToString();

    public string Readings => _readings.ToString();

    public string Definitions => _definitions.ToString();

    private StringBuilder Out => _inReading ? _readings : _picture;

    public void Line(PlotPoint from, PlotPoint to, PlotPen pen) => Write(
        $"<line {Stroke(pen)} x1=\"{N(from.X)}\" y1=\"{N(from.Y)}\" x2=\"{N(to.X)}\" y2=\"{N(to.Y)}\"/>");

    public void Polyline(IReadOnlyList<PlotPoint> points, PlotPen pen)
    {
        if (points.Count >= 2)
        {
            Write($"<polyline {Stroke(pen)} stroke-linejoin=\"round\" points=\"{Points(points)}\"/>");
        }
    }

    public void Shape(IReadOnlyList<PlotPoint> outline, PlotInk ink) => Write($"<polygon {Fill(ink)} points=\"{Points(outline)}\"/>");

    public void Marker(PlotPoint centre, PlotMarker marker, double size, PlotInk ink)
    {
        if (_inReading)
        {
            Write($"<circle class=\"plot-halo\" cx=\"{N(centre.X)}\" cy=\"{N(centre.Y)}\" r=\"{N(size * 1.5)}\" opacity=\"0\"/>");
        }

        if (marker == PlotMarker.Disc)
        {
            Write($"<circle {Fill(ink)} cx=\"{N(centre.X)}\" cy=\"{N(centre.Y)}\" r=\"{N(size / 2)}\"/>");
            return;
        }

        var corners = Points(MarkerOutline.Corners(marker, centre, size));
        var paint = MarkerOutline.IsOpen(marker) ? Stroke(new PlotPen(ink, size * 0.2), "plot-open") : Fill(ink);
        Write($"<polygon {paint} points=\"{corners}\"/>");
    }

    public void Text(PlotPoint at, string text, PlotText style)
    {
        var anchor = style.Anchor switch
        {
            PlotAnchor.Middle => " text-anchor=\"middle\"",
            PlotAnchor.End => " text-anchor=\"end\"",
            _ => string.Empty,
        };
        var weight = style.Bold ? " font-weight=\"700\"" : string.Empty;
        Write($"<text class=\"{SvgPalette.ClassOf(style.Ink)}\" x=\"{N(at.X)}\" y=\"{N(at.Y)}\" font-size=\"{N(style.Size)}\"{anchor}{weight} fill=\"{SvgPalette.FallbackColour(style.Ink)}\">{SvgText.Escape(text)}</text>");
    }

    public IDisposable Clip(PlotArea area)
    {
        var name = string.Create(CultureInfo.InvariantCulture, $"{id}-clip{++_clips}");
        _definitions.Append(CultureInfo.InvariantCulture, $"<clipPath id=\"{name}\"><rect x=\"{N(area.Left)}\" y=\"{N(area.Top)}\" width=\"{N(area.Width)}\" height=\"{N(area.Height)}\"/></clipPath>");
        Write($"<g clip-path=\"url(#{name})\">");
        return new Scope(() => Write("</g>"));
    }

    public IDisposable Named(string name)
    {
        Write($"<g><title>{SvgText.Escape(name)}</title>");
        return new Scope(() => Write("</g>"));
    }

    public IDisposable Reading(string reading)
    {
        if (_inReading)
        {
            throw new InvalidOperationException("A reading cannot stand inside another one.");
        }

        _inReading = true;
        var text = SvgText.Escape(reading);
        Write($"<g class=\"plot-reading\" role=\"img\" tabindex=\"0\" aria-label=\"{text}\"><title>{text}</title>");
        return new Scope(() =>
        {
            Write("</g>");
            _inReading = false;
        });
    }

    private static string N(double value) => SvgText.Number(value);

    private static string Points(IReadOnlyList<PlotPoint> points) => string.Join(' ', points.Select(point => $"{N(point.X)},{N(point.Y)}"));

    private static string Fill(PlotInk ink) => $"class=\"plot-shape {SvgPalette.ClassOf(ink)}\" fill=\"{SvgPalette.FallbackColour(ink)}\"";

    // The colour stands twice, as attribute and by class: viewers that know no custom properties still show it.
    private static string Stroke(PlotPen pen, string kind = "plot-line")
    {
        var dash = pen.Dash switch
        {
            PlotDash.Dashed => $" stroke-dasharray=\"{N(pen.Width * 5)} {N(pen.Width * 3)}\"",
            PlotDash.Dotted => $" stroke-dasharray=\"0 {N(pen.Width * 2.6)}\" stroke-linecap=\"round\"",
            _ => string.Empty,
        };
        var opacity = SvgPalette.Opacity(pen.Ink) is { } value ? $" stroke-opacity=\"{value}\"" : string.Empty;
        return $"class=\"{kind} {SvgPalette.ClassOf(pen.Ink)}\" fill=\"none\" stroke=\"{SvgPalette.FallbackColour(pen.Ink)}\" stroke-width=\"{N(pen.Width)}\"{dash}{opacity}";
    }

    private void Write(string element) => Out.Append(element).Append('\n');

    private sealed class Scope(Action end) : IDisposable
    {
        private Action? _end = end;

        public void Dispose()
        {
            _end?.Invoke();
            _end = null;
        }
    }
}
