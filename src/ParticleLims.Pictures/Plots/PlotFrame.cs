using ParticleLims.Pictures.Drawing;
using ParticleLims.Pictures.Scales;

namespace ParticleLims.Pictures.Plots;

/// <summary>The frame with its net, ticks, axis names and legend; what is measured is drawn into its area.</summary>
internal sealed class PlotFrame
{
    private readonly PlotLayout _layout;
    private readonly Legend _legend;
    private readonly string _acrossName;
    private readonly string _upName;

    public PlotFrame(PlotLayout layout, IEnumerable<LegendEntry> legend, string acrossName, string upName, double labelEms)
    {
        _layout = layout;
        (_acrossName, _upName) = (acrossName, upName);
        var (size, line) = (layout.TextSize, layout.LineHeight);
        var left = (labelEms * size) + (size * 0.7);
        var width = layout.Width - left - (size * 0.9);
        _legend = new Legend(legend, layout, layout.Width - (size * 0.3));
        var top = _legend.Height + line + (size * 0.55);
        Area = new PlotArea(left, top, Math.Max(1, width), Math.Max(1, layout.Height - top - (line * 2.15)));
    }

    public PlotArea Area { get; }

    public void Draw(IPlotSurface surface, IReadOnlyList<Tick> across, Func<double, double> x, IReadOnlyList<Tick> up, Func<double, double> y)
    {
        DrawNet(surface, across, x, up, y);
        DrawTicks(surface, across, x, up, y);
        foreach (var (from, to) in Sides())
        {
            surface.Line(from, to, new PlotPen(PlotInk.Axis, Thin));
        }

        DrawNames(surface);
        _legend.Draw(surface, new(_layout.TextSize * 0.1, 0));
    }

    private double Thin => _layout.TextSize * 0.065;

    private IEnumerable<(PlotPoint From, PlotPoint To)> Sides()
    {
        var corners = Area.Corners();
        return corners.Select((corner, i) => (corner, corners[(i + 1) % corners.Count]));
    }

    private void DrawNet(IPlotSurface surface, IReadOnlyList<Tick> across, Func<double, double> x, IReadOnlyList<Tick> up, Func<double, double> y)
    {
        var pen = new PlotPen(PlotInk.Grid, Thin);
        foreach (var tick in across.Where(tick => tick.IsMajor))
        {
            surface.Line(new(x(tick.Value), Area.Top), new(x(tick.Value), Area.Bottom), pen);
        }

        foreach (var tick in up.Where(tick => tick.IsMajor))
        {
            surface.Line(new(Area.Left, y(tick.Value)), new(Area.Right, y(tick.Value)), pen);
        }
    }

    private void DrawTicks(IPlotSurface surface, IReadOnlyList<Tick> across, Func<double, double> x, IReadOnlyList<Tick> up, Func<double, double> y)
    {
        var (size, pen) = (_layout.TextSize, new PlotPen(PlotInk.Axis, Thin));
        foreach (var tick in across)
        {
            var place = x(tick.Value);
            surface.Line(new(place, Area.Bottom), new(place, Area.Bottom + Length(tick)), pen);
            Label(surface, tick, new(Inside(place, tick.Label), Area.Bottom + (size * 1.4)), PlotAnchor.Middle);
        }

        foreach (var tick in up)
        {
            var place = y(tick.Value);
            surface.Line(new(Area.Left - Length(tick), place), new(Area.Left, place), pen);
            Label(surface, tick, new(Area.Left - (size * 0.55), place + (size * 0.35)), PlotAnchor.End);
        }
    }

    /// <summary>A label at the end of a scale moves inwards rather than off the drawing.</summary>
    private double Inside(double place, string label)
    {
        var half = TextExtent.Width(label, _layout.TextSize) / 2;
        return Math.Max(half, Math.Min(place, _layout.Width - half));
    }

    private double Length(Tick tick) => _layout.TextSize * (tick.IsMajor ? 0.4 : 0.22);

    private void Label(IPlotSurface surface, Tick tick, PlotPoint at, PlotAnchor anchor)
    {
        if (tick.IsMajor)
        {
            surface.Text(at, tick.Label, new PlotText(_layout.TextSize, anchor));
        }
    }

    private void DrawNames(IPlotSurface surface)
    {
        var size = _layout.TextSize;
        surface.Text(new(size * 0.1, Area.Top - (size * 0.75)), _upName, new PlotText(size, Bold: true));
        surface.Text(new(Area.Right, Area.Bottom + (size * 2.65)), _acrossName, new PlotText(size, PlotAnchor.End, Bold: true));
    }
}
