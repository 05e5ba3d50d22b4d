using System.Globalization;
using ParticleLims.Pictures.Drawing;
using ParticleLims.Pictures.Scales;

namespace ParticleLims.Pictures.Plots;

/// <summary>A series of values with its centre, its limits and what changed.</summary>
public sealed class ControlChartPlot : IPlot
{
    private readonly ControlChart _chart;

    /// <summary>A plot of the chart.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A value is not finite, or the decimals lie outside 0 to 9.</exception>
    /// <exception cref="ArgumentException">A line has neither one value nor one for each point, or the values behind are not as many as the points.</exception>
    public ControlChartPlot(ControlChart chart)
    {
        ArgumentNullException.ThrowIfNull(chart);
        _chart = chart;
        foreach (var value in Values())
        {
            CurveChecks.Finite(value, "a value of the series");
        }

        if (chart.Decimals is < 0 or > 9)
        {
            throw new ArgumentOutOfRangeException(nameof(chart), chart.Decimals, "A value is read out with 0 to 9 decimals.");
        }

        if (chart.Lines.Any(line => line.Values.Count != 1 && line.Values.Count != chart.Points.Count) || (chart.Behind is { } behind && behind.Values.Count != chart.Points.Count))
        {
            throw new ArgumentException("A line has one value or one for each point.", nameof(chart));
        }
    }

    /// <inheritdoc />
    public string Title => _chart.Title;

    /// <inheritdoc />
    public string Description
    {
        get
        {
            var points = _chart.Points;
            var range = points.Count == 0
                ? "No value yet."
                : $"{points.Count.ToString(CultureInfo.InvariantCulture)} values from {Number(points.Min(point => point.Value))} to {Number(points.Max(point => point.Value))}, the last {Number(points[^1].Value)} ({points[^1].Label}).";
            var lines = string.Concat(_chart.Lines.Select(line => $" {InWords(line)}."));
            var signals = string.Concat(points.Where(point => point.Signal is not null).Select(point => $" {Reading(point)}."));
            var steps = string.Concat(points.Where(point => point.Step is not null).Select(point => $" Before {point.Label}: {point.Step}."));
            return $"{_chart.ValueName} by {_chart.OrderName}. {range}{lines}{signals}{steps}";
        }
    }

    /// <inheritdoc />
    public PlotTable Numbers => new(
        [_chart.OrderName, _chart.ValueName, .. _chart.Behind is { } behind ? new[] { behind.Label } : [], .. _chart.Lines.Select(line => line.Label), "signal", "changed before"],
        [.. _chart.Points.Select((point, i) => (IReadOnlyList<string>)
            [
                point.Label, Number(point.Value), .. _chart.Behind is { } behind ? new[] { Number(behind.Values[i]) } : [], .. _chart.Lines.Select(line => Number(ValueOf(line, i))),
                point.Signal ?? string.Empty, point.Step ?? string.Empty,
            ])]);

    /// <inheritdoc />
    public void Draw(IPlotSurface surface, PlotLayout layout)
    {
        ArgumentNullException.ThrowIfNull(surface);
        ArgumentNullException.ThrowIfNull(layout);
        var values = Values().ToList();
        var ticks = LinearScale.Holding(values, 0, 1).Ticks(AxisTicks.MostUpwards(layout));
        var frame = new PlotFrame(layout, LegendEntries(layout), _chart.OrderName, _chart.ValueName, AxisTicks.Widest(ticks));
        var up = LinearScale.Holding(values, frame.Area.Bottom, frame.Area.Top);
        var across = new LinearScale(-0.04, 1.04, frame.Area.Left, frame.Area.Right);
        var places = Shares().ConvertAll(across.Position);
        frame.Draw(surface, OrderTicks(places, layout), place => place, ticks, up.Position);
        foreach (var line in _chart.Lines)
        {
            using var named = surface.Named(InWords(line));
            surface.Polyline(Stairs(line, places, frame.Area, up), PenOf(line, layout));
        }

        DrawSteps(surface, layout, frame.Area, places, up);
        DrawPoints(surface, layout, places, up);
    }

    private static double ValueOf(ControlLine line, int point) => line.Values.Count == 1 ? line.Values[0] : line.Values[point];

    private static PlotPen PenOf(ControlLine line, PlotLayout layout) => line.Kind switch
    {
        ControlLineKind.Centre => new PlotPen(PlotInk.Model, layout.TextSize * 0.1, PlotDash.Dashed),
        ControlLineKind.Warning => new PlotPen(PlotInk.Gate, layout.TextSize * 0.13, PlotDash.Dotted),
        ControlLineKind.Limit => new PlotPen(PlotInk.Gate, layout.TextSize * 0.16),
        _ => throw new ArgumentOutOfRangeException(nameof(line), line.Kind, "Not a kind of line."),
    };

    /// <summary>The line over the whole frame; where its value changes, it changes halfway between two points.</summary>
    private static List<PlotPoint> Stairs(ControlLine line, List<double> places, PlotArea area, LinearScale up)
    {
        var corners = new List<PlotPoint>();
        for (var i = 0; i < line.Values.Count; i++)
        {
            var height = up.Position(line.Values[i]);
            corners.Add(new(i == 0 ? area.Left : Halfway(places, i), height));
            corners.Add(new(i == line.Values.Count - 1 ? area.Right : Halfway(places, i + 1), height));
        }

        return corners;
    }

    private static double Halfway(List<double> places, int point) => (places[point - 1] + places[point]) / 2;

    private IEnumerable<double> Values() =>
        [.. _chart.Points.Select(point => point.Value), .. _chart.Lines.SelectMany(line => line.Values), .. _chart.Behind?.Values ?? []];

    private string Number(double value) => value.ToString("F" + _chart.Decimals.ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture);

    private string InWords(ControlLine line) => line.Values.Count == 0 || line.Values.Any(value => value != line.Values[0])
        ? line.Label
        : $"{line.Label}: {Number(line.Values[0])}";

    private string Reading(ControlPoint point) => $"{point.Label}: {Number(point.Value)}{(point.Signal is null ? string.Empty : ", needs eyes: " + point.Signal)}";

    /// <summary>The place of each point between 0 and 1.</summary>
    private List<double> Shares()
    {
        var points = _chart.Points;
        if (points.Count < 2)
        {
            return [.. points.Select(_ => 0.5)];
        }

        var span = points.All(point => point.At.HasValue) ? (points[^1].At!.Value - points[0].At!.Value).TotalSeconds : 0;
        return span > 0
            ? [.. points.Select(point => Math.Clamp((point.At!.Value - points[0].At!.Value).TotalSeconds / span, 0, 1))]
            : [.. points.Select((_, i) => (double)i / (points.Count - 1))];
    }

    private List<Tick> OrderTicks(List<double> places, PlotLayout layout)
    {
        var ticks = new List<Tick>();
        var free = double.NegativeInfinity;
        for (var i = 0; i < places.Count; i++)
        {
            var half = TextExtent.Width(_chart.Points[i].Label, layout.TextSize) / 2;
            var fits = places[i] - half > Math.Max(free, 0) && places[i] + half < layout.Width;
            ticks.Add(new Tick(places[i], fits ? _chart.Points[i].Label : string.Empty));
            free = fits ? places[i] + half + layout.TextSize : free;
        }

        return ticks;
    }

    private IEnumerable<LegendEntry> LegendEntries(PlotLayout layout)
    {
        if (_chart.Points.Any(point => point.Signal is not null))
        {
            yield return new("needs eyes", null, PlotMarker.Triangle, PlotInk.Alarm);
        }

        foreach (var line in _chart.Lines)
        {
            yield return new(InWords(line).Replace(": ", " ", StringComparison.Ordinal), PenOf(line, layout), null, PlotInk.Gate);
        }

        if (_chart.Behind is { } behind)
        {
            yield return new(behind.Label, BehindPen(layout), null, PlotInk.Replicate);
        }
    }

    private static PlotPen BehindPen(PlotLayout layout) => new(PlotInk.Replicate, layout.TextSize * 0.08, PlotDash.Dashed);

    private void DrawSteps(IPlotSurface surface, PlotLayout layout, PlotArea area, List<double> places, LinearScale up)
    {
        var board = new LabelBoard(area);
        board.Avoid([.. places.Select((place, i) => new PlotPoint(place, up.Position(_chart.Points[i].Value)))]);
        foreach (var line in _chart.Lines)
        {
            board.Avoid(Stairs(line, places, area, up));
        }

        foreach (var (point, i) in _chart.Points.Select((point, i) => (point, i)).Where(one => one.point.Step is not null))
        {
            var (place, step, size) = (i == 0 ? places[0] : Halfway(places, i), point.Step!, layout.TextSize);
            using var named = surface.Named($"Before {point.Label}: {step}");
            surface.Line(new(place, area.Top), new(place, area.Bottom), new PlotPen(PlotInk.Text, size * 0.08, PlotDash.Dotted));
            board.Place(surface, step,
            [
                .. from row in Enumerable.Range(1, 4)
                   from anchor in Enum.GetValues<PlotAnchor>()
                   where anchor != PlotAnchor.Middle
                   select (new PlotPoint(place + (anchor == PlotAnchor.End ? -size * 0.4 : size * 0.4), area.Top + (row * layout.LineHeight)), new PlotText(size, anchor)),
            ]);
        }
    }

    private void DrawPoints(IPlotSurface surface, PlotLayout layout, List<double> places, LinearScale up)
    {
        if (_chart.Behind is { } behind)
        {
            using var named = surface.Named(behind.Label);
            surface.Polyline([.. places.Select((place, i) => new PlotPoint(place, up.Position(behind.Values[i])))], BehindPen(layout));
        }

        var line = places.Select((place, i) => new PlotPoint(place, up.Position(_chart.Points[i].Value))).ToList();
        surface.Polyline(line, new PlotPen(PlotInk.Curve, layout.TextSize * 0.1));
        for (var i = 0; i < line.Count; i++)
        {
            var signalled = _chart.Points[i].Signal is not null;
            using var reading = surface.Reading(Reading(_chart.Points[i]));
            surface.Marker(line[i], signalled ? PlotMarker.Triangle : PlotMarker.Disc, layout.MarkerSize, signalled ? PlotInk.Alarm : PlotInk.Curve);
        }
    }
}
