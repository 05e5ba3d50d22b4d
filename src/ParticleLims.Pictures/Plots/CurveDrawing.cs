using ParticleLims.Pictures.Drawing;
using ParticleLims.Pictures.Scales;

namespace ParticleLims.Pictures.Plots;

/// <summary>What stands inside the frame of a distribution curve.</summary>
internal sealed class CurveDrawing(
    DistributionCurve curve, IReadOnlyList<CurvePoint> points, IPlotSurface surface, PlotLayout layout, PlotArea area, LogScale across, LinearScale up)
{
    private readonly double _size = layout.TextSize;

    public void Draw()
    {
        var line = Line(curve.Between.Count > 1 ? curve.Between : points);
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
        using var named = surface.Named($"{model.Name}: {model.Parameters}");
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
            using var named = surface.Named(Words.Mark(mark));
            surface.Line(at, at with { Y = area.Bottom }, new PlotPen(PlotInk.Percentile, _size * 0.08, PlotDash.Dotted));
            if (mark.Interval is { } range)
            {
                DrawBar(Place(range.FromMicrometres, mark.PassingPercent), Place(range.ToMicrometres, mark.PassingPercent), PlotInk.Percentile);
            }

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
            DrawBars(point);
            surface.Marker(Place(point.ApertureMicrometres, point.PassingPercent), PlotMarker.Disc, layout.MarkerSize, PlotInk.Curve);
        }
    }

    private void DrawBars(CurvePoint point)
    {
        if (point.StandardUncertaintyPercent * curve.CoverageFactor is { } half)
        {
            DrawBar(Place(point.ApertureMicrometres, point.PassingPercent - half), Place(point.ApertureMicrometres, point.PassingPercent + half), PlotInk.Curve);
        }

        if (point.ApertureStandardUncertaintyMicrometres * curve.CoverageFactor is { } width)
        {
            var finest = Math.Clamp(point.ApertureMicrometres - width, across.Lowest, across.Highest);
            DrawBar(Place(finest, point.PassingPercent), Place(Math.Min(point.ApertureMicrometres + width, across.Highest), point.PassingPercent), PlotInk.Curve);
        }
    }

    /// <summary>A line with a short stroke across each end.</summary>
    private void DrawBar(PlotPoint from, PlotPoint to, PlotInk ink)
    {
        var pen = new PlotPen(ink, _size * 0.09);
        var (aside, upwards) = from.X == to.X ? (_size * 0.22, 0d) : (0d, _size * 0.22);
        surface.Line(from, to, pen);
        foreach (var end in new[] { from, to })
        {
            surface.Line(new(end.X - aside, end.Y - upwards), new(end.X + aside, end.Y + upwards), pen);
        }
    }
}
