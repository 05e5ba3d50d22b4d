using ParticleLims.Pictures.Drawing;

namespace ParticleLims.Pictures.Plots;

/// <summary>Draws limits as gates: a short wall beyond each bound, and a dotted line across the opening.</summary>
internal sealed class GateDrawing(IPlotSurface surface, PlotLayout layout, PlotArea area, Func<double, double> x, Func<double, double> y)
{
    private readonly double _size = layout.TextSize;
    private readonly List<PlotArea> _walls = [];

    /// <summary>The places that the gates drawn so far cover.</summary>
    public IReadOnlyList<PlotArea> Walls => _walls;

    private double Wall => _size * 1.5;

    public void Draw(CurveGate gate)
    {
        using var named = surface.Named(Words.Window(gate));
        if (gate.ApertureMicrometres is { } aperture)
        {
            DrawUpright(x(aperture), gate);
        }
        else
        {
            DrawLevel(y(gate.PassingPercent!.Value), gate);
        }
    }

    public void Label(LabelBoard board, CurveGate gate) => board.Place(surface, gate.Label, gate.ApertureMicrometres is { } aperture
        ? [.. UprightPlaces(x(aperture), gate)]
        : [.. LevelPlaces(y(gate.PassingPercent!.Value), gate)]);

    private void DrawUpright(double at, CurveGate gate)
    {
        var low = gate.Lower is { } lower ? y(lower) : area.Bottom;
        var high = gate.Upper is { } upper ? y(upper) : area.Top;
        Opening(new(at, low), new(at, high));
        if (gate.Lower.HasValue)
        {
            Bar(at - (_size * 0.16), low, _size * 0.32, Math.Min(Wall, area.Bottom - low));
            Bar(at - (_size * 0.5), low, _size, _size * 0.14);
        }

        if (gate.Upper.HasValue)
        {
            var length = Math.Min(Wall, high - area.Top);
            Bar(at - (_size * 0.16), high - length, _size * 0.32, length);
            Bar(at - (_size * 0.5), high - (_size * 0.14), _size, _size * 0.14);
        }
    }

    private void DrawLevel(double at, CurveGate gate)
    {
        var left = gate.Lower is { } lower ? x(lower) : area.Left;
        var right = gate.Upper is { } upper ? x(upper) : area.Right;
        Opening(new(left, at), new(right, at));
        if (gate.Lower.HasValue)
        {
            var length = Math.Min(Wall, left - area.Left);
            Bar(left - length, at - (_size * 0.16), length, _size * 0.32);
            Bar(left - (_size * 0.14), at - (_size * 0.5), _size * 0.14, _size);
        }

        if (gate.Upper.HasValue)
        {
            Bar(right, at - (_size * 0.16), Math.Min(Wall, area.Right - right), _size * 0.32);
            Bar(right, at - (_size * 0.5), _size * 0.14, _size);
        }
    }

    private void Opening(PlotPoint from, PlotPoint to) => surface.Line(from, to, new PlotPen(PlotInk.Gate, _size * 0.1, PlotDash.Dotted));

    private void Bar(double left, double top, double width, double height)
    {
        if (width > 0 && height > 0)
        {
            var wall = new PlotArea(left, top, width, height);
            _walls.Add(wall);
            surface.Shape(wall.Corners(), PlotInk.Gate);
        }
    }

    // A distribution curve rises, so below to the right and above to the left of it there is room.
    private IEnumerable<(PlotPoint At, PlotText Style)> UprightPlaces(double at, CurveGate gate)
    {
        var (start, end) = (new PlotText(_size), new PlotText(_size, PlotAnchor.End));
        for (var row = 0; row < 4; row++)
        {
            var step = row * layout.LineHeight;
            if (gate.Lower is { } lower)
            {
                yield return (new(at + (_size * 0.6), y(lower) + (_size * 1.15) + step), start);
                yield return (new(at - (_size * 0.6), y(lower) + (_size * 1.15) + step), end);
            }

            if (gate.Upper is { } upper)
            {
                yield return (new(at - (_size * 0.6), y(upper) - (_size * 0.4) - step), end);
                yield return (new(at + (_size * 0.6), y(upper) - (_size * 0.4) - step), start);
            }
        }
    }

    private IEnumerable<(PlotPoint At, PlotText Style)> LevelPlaces(double at, CurveGate gate)
    {
        for (var row = 0; row < 4; row++)
        {
            var step = row * layout.LineHeight;
            if (gate.Upper is { } upper)
            {
                yield return (new(x(upper) + (_size * 0.4), at + (_size * 1.3) + step), new PlotText(_size));
                yield return (new(x(upper) + (_size * 0.4), at - (_size * 0.6) - step), new PlotText(_size));
            }

            if (gate.Lower is { } lower)
            {
                yield return (new(x(lower) - (_size * 0.4), at - (_size * 0.6) - step), new PlotText(_size, PlotAnchor.End));
                yield return (new(x(lower) - (_size * 0.4), at + (_size * 1.3) + step), new PlotText(_size, PlotAnchor.End));
            }
        }
    }
}
