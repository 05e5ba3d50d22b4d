using System.Globalization;
using ParticleLims.Pictures.Drawing;
using ParticleLims.Pictures.Scales;

namespace ParticleLims.Pictures.Plots;

/// <summary>
/// Passing in percent over the aperture on a logarithmic scale. Points are joined by straight lines, which is linear interpolation
/// over ln x. Beside them stand the specification's gates, the sizes read from the curve and a fitted line.
/// </summary>
public sealed class DistributionCurvePlot : IPlot
{
    private readonly DistributionCurve _curve;
    private readonly IReadOnlyList<CurvePoint> _points;

    /// <summary>A plot of the curve.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A number is not finite, a size not above 0, or a percentage of a limit outside 0 to 100.</exception>
    /// <exception cref="ArgumentException">A gate stands at no or at two places, or has no bound.</exception>
    public DistributionCurvePlot(DistributionCurve curve)
    {
        ArgumentNullException.ThrowIfNull(curve);
        CurveChecks.Check(curve);
        _curve = curve;
        _points = [.. curve.Points.OrderBy(point => point.ApertureMicrometres)];
    }

    /// <inheritdoc />
    public string Title => _curve.Title;

    /// <inheritdoc />
    public string Description => string.Join(". ", Sentences()) + ".";

    /// <inheritdoc />
    public void Draw(IPlotSurface surface, PlotLayout layout)
    {
        ArgumentNullException.ThrowIfNull(surface);
        ArgumentNullException.ThrowIfNull(layout);
        var frame = new PlotFrame(layout, LegendEntries(layout), "Aperture, µm", "Passing, %", labelEms: 2);
        var across = LogScale.Holding(Sizes(), frame.Area.Left, frame.Area.Right);
        var up = new LinearScale(0, 100, frame.Area.Bottom, frame.Area.Top);
        frame.Draw(surface, across.Ticks(layout.TextSize * (layout.Compact ? 2.6 : 2)), across.Position, PercentTicks(layout), up.Position);
        new Content(_curve, _points, surface, layout, frame.Area, across, up).Draw();
    }

    private static IReadOnlyList<Tick> PercentTicks(PlotLayout layout)
    {
        var labelled = layout.Compact ? 25 : 20;
        var step = layout.Compact ? 25 : 10;
        return [.. Enumerable.Range(0, (100 / step) + 1).Select(n => n * step)
            .Select(percent => new Tick(percent, percent % labelled == 0 ? percent.ToString(CultureInfo.InvariantCulture) : string.Empty))];
    }

    private List<double> Sizes() =>
    [
        .. _points.Concat(_curve.Others.SelectMany(other => other.Points)).Select(point => point.ApertureMicrometres),
        .. _curve.Gates.SelectMany(gate => gate.ApertureMicrometres is { } aperture ? [aperture] : new[] { gate.Lower, gate.Upper }.OfType<double>()),
        .. _curve.Percentiles.Select(mark => mark.Micrometres),
    ];

    private IEnumerable<LegendEntry> LegendEntries(PlotLayout layout)
    {
        var size = layout.TextSize;
        var bars = _points.Any(point => point.StandardUncertaintyPercent is not null);
        var measured = bars ? string.Create(CultureInfo.InvariantCulture, $"measured (bars: k = {_curve.CoverageFactor:0.##})") : "measured";
        yield return new(layout.Compact ? "measured" : measured, new PlotPen(PlotInk.Curve, size * 0.15), PlotMarker.Disc, PlotInk.Curve);
        if (_curve.Others.Count > 0)
        {
            yield return new("other runs", new PlotPen(PlotInk.Replicate, size * 0.1), null, PlotInk.Replicate);
        }

        if (_curve.Model is not null)
        {
            yield return new("Rosin-Rammler", new PlotPen(PlotInk.Model, size * 0.12, PlotDash.Dashed), null, PlotInk.Model);
        }

        if (_curve.Gates.Count > 0)
        {
            yield return new("limit", new PlotPen(PlotInk.Gate, size * 0.32), null, PlotInk.Gate);
        }

        if (_curve.Percentiles.Count > 0)
        {
            yield return new(layout.Compact ? "read" : "read from the curve", null, PlotMarker.Diamond, PlotInk.Percentile);
        }
    }

    private IEnumerable<string> Sentences()
    {
        yield return _points.Count == 0
            ? "Passing in percent against aperture in micrometres, no point measured yet"
            : "Passing in percent against aperture in micrometres. " + string.Join("; ", _points.Select(point => Words.Reading(point, _curve.CoverageFactor)));
        if (_curve.Percentiles.Count > 0)
        {
            yield return "Read from the curve: " + string.Join("; ", _curve.Percentiles.Select(MarkInWords));
        }

        foreach (var gate in _curve.Gates)
        {
            yield return Words.Window(gate);
        }

        if (_curve.Model is { } model)
        {
            yield return $"Rosin-Rammler line: x′ = {Words.Size(model.SizeMicrometres)}, n = {Words.Significant(model.Slope)}";
        }

        if (_curve.Others.Count > 0)
        {
            yield return "Other runs: " + string.Join(", ", _curve.Others.Select(other => other.Label));
        }
    }

    private static string MarkInWords(PercentileMark mark) => $"{mark.Label}: {Words.Percent(mark.PassingPercent)} passing at {Words.Size(mark.Micrometres)}";

    /// <summary>What stands inside the frame.</summary>
    private sealed class Content(
        DistributionCurve curve, IReadOnlyList<CurvePoint> points, IPlotSurface surface, PlotLayout layout, PlotArea area, LogScale across, LinearScale up)
    {
        private readonly double _size = layout.TextSize;

        public void Draw()
        {
            var line = Line(points);
            var gates = new GateDrawing(surface, layout, area, across.Position, up.Position);
            using (surface.Clip(area))
            {
                DrawOthers();
                DrawModel();
                foreach (var gate in curve.Gates)
                {
                    gates.Draw(gate);
                }

                surface.Polyline(line, new PlotPen(PlotInk.Curve, _size * 0.15));
            }

            var board = new LabelBoard(area);
            board.Avoid(line);
            foreach (var wall in gates.Walls)
            {
                board.Avoid(wall);
            }

            DrawPercentiles(board);
            LabelGates(gates, board);
            DrawPoints();
        }

        private PlotPoint Place(double micrometres, double percent) => new(across.Position(micrometres), up.Position(Math.Clamp(percent, 0, 100)));

        private List<PlotPoint> Line(IEnumerable<CurvePoint> through) =>
            [.. through.OrderBy(point => point.ApertureMicrometres).Select(point => Place(point.ApertureMicrometres, point.PassingPercent))];

        private void DrawOthers()
        {
            foreach (var other in curve.Others)
            {
                using var named = surface.Named(other.Label);
                surface.Polyline(Line(other.Points), new PlotPen(PlotInk.Replicate, _size * 0.1));
            }
        }

        private void DrawModel()
        {
            if (curve.Model is not { } model)
            {
                return;
            }

            const int Pieces = 80;
            var ratio = across.Highest / across.Lowest;
            var sizes = Enumerable.Range(0, Pieces + 1).Select(i => across.Lowest * Math.Pow(ratio, (double)i / Pieces));
            surface.Polyline([.. sizes.Select(size => Place(size, model.PassingPercent(size)))], new PlotPen(PlotInk.Model, _size * 0.12, PlotDash.Dashed));
        }

        private void LabelGates(GateDrawing gates, LabelBoard board)
        {
            foreach (var gate in layout.Compact ? [] : curve.Gates)
            {
                gates.Label(board, gate);
            }
        }

        private void DrawPercentiles(LabelBoard board)
        {
            foreach (var mark in curve.Percentiles)
            {
                var at = Place(mark.Micrometres, mark.PassingPercent);
                using var named = surface.Named(MarkInWords(mark));
                surface.Line(at, at with { Y = area.Bottom }, new PlotPen(PlotInk.Percentile, _size * 0.08, PlotDash.Dotted));
                surface.Marker(at, PlotMarker.Diamond, layout.MarkerSize * 1.15, PlotInk.Percentile);
                var (aside, lift) = (_size * 0.7, _size * 0.35);
                board.Place(surface, mark.Label,
                [
                    (new(at.X - aside, at.Y - lift), new PlotText(_size, PlotAnchor.End)), (new(at.X + aside, at.Y + (_size * 1.1)), new PlotText(_size)),
                    (new(at.X - aside, at.Y - (lift * 4)), new PlotText(_size, PlotAnchor.End)), (new(at.X + aside, at.Y - lift), new PlotText(_size)),
                ]);
            }
        }

        private void DrawPoints()
        {
            foreach (var point in points)
            {
                using var reading = surface.Reading(Words.Reading(point, curve.CoverageFactor));
                DrawBar(point);
                surface.Marker(Place(point.ApertureMicrometres, point.PassingPercent), PlotMarker.Disc, layout.MarkerSize, PlotInk.Curve);
            }
        }

        private void DrawBar(CurvePoint point)
        {
            if (point.StandardUncertaintyPercent is not { } uncertainty)
            {
                return;
            }

            var pen = new PlotPen(PlotInk.Curve, _size * 0.09);
            var half = uncertainty * curve.CoverageFactor;
            var (low, high) = (Place(point.ApertureMicrometres, point.PassingPercent - half), Place(point.ApertureMicrometres, point.PassingPercent + half));
            surface.Line(low, high, pen);
            surface.Line(low with { X = low.X - (_size * 0.22) }, low with { X = low.X + (_size * 0.22) }, pen);
            surface.Line(high with { X = high.X - (_size * 0.22) }, high with { X = high.X + (_size * 0.22) }, pen);
        }
    }
}
