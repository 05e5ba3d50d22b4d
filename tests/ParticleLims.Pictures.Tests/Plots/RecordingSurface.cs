using ParticleLims.Pictures.Drawing;

namespace ParticleLims.Pictures.Tests.Plots;

/// <summary>Keeps what was drawn, so that a test can look at the places themselves.</summary>
internal sealed class RecordingSurface : IPlotSurface
{
    private PlotArea? _clip;

    public List<(PlotPoint From, PlotPoint To, PlotPen Pen)> Lines { get; } = [];

    public List<(IReadOnlyList<PlotPoint> Points, PlotPen Pen, PlotArea? Clip)> Polylines { get; } = [];

    public List<(IReadOnlyList<PlotPoint> Outline, PlotInk Ink)> Shapes { get; } = [];

    public List<(PlotPoint Centre, PlotMarker Marker, PlotInk Ink)> Markers { get; } = [];

    public List<(PlotPoint At, string Text, PlotText Style)> Texts { get; } = [];

    public List<string> Readings { get; } = [];

    public List<string> Names { get; } = [];

    /// <summary>The frame, from its four sides.</summary>
    public PlotArea Frame
    {
        get
        {
            var sides = Lines.Where(line => line.Pen.Ink == PlotInk.Axis).Where(line => Math.Max(Math.Abs(line.From.X - line.To.X), Math.Abs(line.From.Y - line.To.Y)) > 20).ToList();
            var corners = sides.SelectMany(line => new[] { line.From, line.To }).ToList();
            var (left, top) = (corners.Min(corner => corner.X), corners.Min(corner => corner.Y));
            return new PlotArea(left, top, corners.Max(corner => corner.X) - left, corners.Max(corner => corner.Y) - top);
        }
    }

    public void Line(PlotPoint from, PlotPoint to, PlotPen pen) => Lines.Add((from, to, pen));

    public void Polyline(IReadOnlyList<PlotPoint> points, PlotPen pen) => Polylines.Add((points, pen, _clip));

    public void Shape(IReadOnlyList<PlotPoint> outline, PlotInk ink) => Shapes.Add((outline, ink));

    public void Marker(PlotPoint centre, PlotMarker marker, double size, PlotInk ink) => Markers.Add((centre, marker, ink));

    public void Text(PlotPoint at, string text, PlotText style) => Texts.Add((at, text, style));

    public IDisposable Clip(PlotArea area)
    {
        _clip = area;
        return new End(() => _clip = null);
    }

    public IDisposable Named(string name)
    {
        Names.Add(name);
        return new End(() => { });
    }

    public IDisposable Reading(string reading)
    {
        Readings.Add(reading);
        return new End(() => { });
    }

    private sealed class End(Action end) : IDisposable
    {
        public void Dispose() => end();
    }
}
