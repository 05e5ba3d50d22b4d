using System.Globalization;
using ParticleLims.Pictures.Drawing;
using ParticleLims.Pictures.Scales;

namespace ParticleLims.Pictures.Plots;

/// <summary>Values in their order, for example the empty mass of one sieve at each use.</summary>
public sealed record Series
{
    /// <summary>The name of the picture.</summary>
    public required string Title { get; init; }

    /// <summary>What the values are, with their unit, for example <c>Empty mass, g</c>.</summary>
    public required string ValueName { get; init; }

    /// <summary>What the points stand for, for example <c>Use</c> or <c>Date</c>.</summary>
    public required string OrderName { get; init; }

    /// <summary>The values, oldest first.</summary>
    public required IReadOnlyList<SeriesPoint> Points { get; init; }

    /// <summary>Level lines.</summary>
    public IReadOnlyList<SeriesLimit> Limits { get; init; } = [];

    /// <summary>Decimals of a value that is read out, 0 to 9.</summary>
    public int Decimals { get; init; } = 3;
}

/// <summary>One value.</summary>
/// <param name="Label">Its date or number, as printed below it.</param>
/// <param name="Value">The value, finite.</param>
/// <param name="NeedsEyes">Whether it is drawn as a triangle in the alarm colour.</param>
/// <param name="At">When it was; where every point has a time, the distances follow the time.</param>
public sealed record SeriesPoint(string Label, double Value, bool NeedsEyes = false, DateTimeOffset? At = null);

/// <summary>A level line.</summary>
/// <param name="Label">Its name, for example <c>commissioned at</c> or <c>lower limit</c>.</param>
/// <param name="Value">Its value, finite.</param>
/// <param name="IsBound">Whether it is a bound (solid) rather than a reference (dashed).</param>
public sealed record SeriesLimit(string Label, double Value, bool IsBound = true);

/// <summary>A series of values with its limits.</summary>
public sealed class SeriesPlot : IPlot
{
    private readonly Series _series;

    /// <summary>A plot of the series.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A value is not finite, or the decimals lie outside 0 to 9.</exception>
    public SeriesPlot(Series series)
    {
        ArgumentNullException.ThrowIfNull(series);
        foreach (var value in series.Points.Select(point => point.Value).Concat(series.Limits.Select(limit => limit.Value)))
        {
            CurveChecks.Finite(value, "a value of the series");
        }

        if (series.Decimals is < 0 or > 9)
        {
            throw new ArgumentOutOfRangeException(nameof(series), series.Decimals, "A value is read out with 0 to 9 decimals.");
        }

        _series = series;
    }

    /// <inheritdoc />
    public string Title => _series.Title;

    /// <inheritdoc />
    public string Description
    {
        get
        {
            var limits = string.Join(" ", _series.Limits.Select(limit => $"{limit.Label}: {Number(limit.Value)}."));
            var range = _series.Points.Count == 0
                ? "No value yet."
                : $"{_series.Points.Count.ToString(CultureInfo.InvariantCulture)} values from {Number(_series.Points.Min(point => point.Value))} to {Number(_series.Points.Max(point => point.Value))}, the last {Number(_series.Points[^1].Value)} ({_series.Points[^1].Label}).";
            return $"{_series.ValueName} by {_series.OrderName}. {range} {limits}".TrimEnd();
        }
    }

    /// <inheritdoc />
    public void Draw(IPlotSurface surface, PlotLayout layout)
    {
        ArgumentNullException.ThrowIfNull(surface);
        ArgumentNullException.ThrowIfNull(layout);
        var values = _series.Points.Select(point => point.Value).Concat(_series.Limits.Select(limit => limit.Value)).ToList();
        var most = layout.Compact ? 4 : 6;
        var labelEms = LinearScale.Holding(values, 0, 1).Ticks(most).Max(tick => tick.Label.Length) * 0.6;
        var frame = new PlotFrame(layout, LegendEntries(layout), _series.OrderName, _series.ValueName, labelEms);
        var up = LinearScale.Holding(values, frame.Area.Bottom, frame.Area.Top);
        var across = Positions();
        var scale = new LinearScale(-0.04, 1.04, frame.Area.Left, frame.Area.Right);
        frame.Draw(surface, OrderTicks(across, scale, layout), scale.Position, up.Ticks(most), up.Position);
        DrawLimits(surface, layout, frame.Area, up);
        DrawPoints(surface, layout, [.. across.Select(scale.Position)], up);
    }

    private string Number(double value) => value.ToString("F" + _series.Decimals.ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture);

    /// <summary>The place of each point between 0 and 1.</summary>
    private List<double> Positions()
    {
        var points = _series.Points;
        if (points.Count < 2)
        {
            return [.. points.Select(_ => 0.5)];
        }

        var span = points.All(point => point.At.HasValue) ? (points[^1].At!.Value - points[0].At!.Value).TotalSeconds : 0;
        return span > 0
            ? [.. points.Select(point => Math.Clamp((point.At!.Value - points[0].At!.Value).TotalSeconds / span, 0, 1))]
            : [.. points.Select((_, i) => (double)i / (points.Count - 1))];
    }

    private List<Tick> OrderTicks(List<double> across, LinearScale scale, PlotLayout layout)
    {
        var ticks = new List<Tick>();
        var free = double.NegativeInfinity;
        for (var i = 0; i < across.Count; i++)
        {
            var half = TextExtent.Width(_series.Points[i].Label, layout.TextSize) / 2;
            var place = scale.Position(across[i]);
            var fits = place - half > Math.Max(free, 0) && place + half < layout.Width;
            ticks.Add(new Tick(across[i], fits ? _series.Points[i].Label : string.Empty));
            free = fits ? place + half + layout.TextSize : free;
        }

        return ticks;
    }

    private IEnumerable<LegendEntry> LegendEntries(PlotLayout layout)
    {
        if (_series.Points.Any(point => point.NeedsEyes))
        {
            yield return new("needs eyes", null, PlotMarker.Triangle, PlotInk.Alarm);
        }

        foreach (var limit in _series.Limits)
        {
            yield return new($"{limit.Label} {Number(limit.Value)}", PenOf(limit, layout), null, PlotInk.Gate);
        }
    }

    private static PlotPen PenOf(SeriesLimit limit, PlotLayout layout) => limit.IsBound
        ? new PlotPen(PlotInk.Gate, layout.TextSize * 0.16)
        : new PlotPen(PlotInk.Model, layout.TextSize * 0.1, PlotDash.Dashed);

    private void DrawLimits(IPlotSurface surface, PlotLayout layout, PlotArea area, LinearScale up)
    {
        foreach (var limit in _series.Limits)
        {
            using var named = surface.Named($"{limit.Label}: {Number(limit.Value)}");
            surface.Line(new(area.Left, up.Position(limit.Value)), new(area.Right, up.Position(limit.Value)), PenOf(limit, layout));
        }
    }

    private void DrawPoints(IPlotSurface surface, PlotLayout layout, List<double> places, LinearScale up)
    {
        var line = places.Select((place, i) => new PlotPoint(place, up.Position(_series.Points[i].Value))).ToList();
        surface.Polyline(line, new PlotPen(PlotInk.Curve, layout.TextSize * 0.1));
        for (var i = 0; i < line.Count; i++)
        {
            var point = _series.Points[i];
            using var reading = surface.Reading($"{point.Label}: {Number(point.Value)}{(point.NeedsEyes ? ", needs eyes" : string.Empty)}");
            surface.Marker(line[i], point.NeedsEyes ? PlotMarker.Triangle : PlotMarker.Disc, layout.MarkerSize, point.NeedsEyes ? PlotInk.Alarm : PlotInk.Curve);
        }
    }
}
