using System.Globalization;
using ParticleLims.Analysis.ModelFits;
using ParticleLims.Pictures.Drawing;
using ParticleLims.Pictures.Scales;

namespace ParticleLims.Pictures.Plots;

/// <summary>What a net shows: the measured points and the lines fitted to them.</summary>
public sealed record Net
{
    /// <summary>The name of the picture.</summary>
    public required string Title { get; init; }

    /// <summary>The measured points in any order; those with nothing or everything passing have no place in a net and are only counted.</summary>
    public required IReadOnlyList<CurvePoint> Points { get; init; }

    /// <summary>The fitted lines, at most two: the first is dashed, the second dotted.</summary>
    public IReadOnlyList<NetLine> Lines { get; init; } = [];

    /// <summary>By what the standard uncertainties are multiplied for the bars; 2 unless said otherwise.</summary>
    public double CoverageFactor { get; init; } = 2;
}

/// <summary>A fitted line of a net.</summary>
/// <param name="Label">How it was fitted, short, for example <c>line</c>.</param>
/// <param name="Fit">The distribution, of the net's own kind.</param>
public sealed record NetLine(string Label, FittedLine Fit);

/// <summary>
/// The passing in a net in which one kind of distribution is a straight line over ln x: the Rosin-Rammler net (ln ln(1/R) up, labelled in
/// percent of residue R) and the log-normal net (the normal quantile of the passing up, labelled in percent of passing).
/// </summary>
public sealed class NetPlot : IPlot
{
    private readonly Net _net;
    private readonly Model _model;
    private readonly IReadOnlyList<CurvePoint> _points;

    private NetPlot(Net net, Model model)
    {
        ArgumentNullException.ThrowIfNull(net);
        CurveChecks.CheckPoints(net.Points);
        foreach (var line in net.Lines)
        {
            CurveChecks.CheckLine(line.Fit);
        }

        if (net.Lines.Count > 2 || net.Lines.Any(line => line.Fit.Model != model))
        {
            throw new ArgumentException("A net bears at most two lines of its own kind.", nameof(net));
        }

        (_net, _model) = (net, model);
        _points = [.. net.Points.Where(HasPlace).OrderBy(point => point.ApertureMicrometres)];
    }

    /// <inheritdoc />
    public string Title => _net.Title;

    /// <inheritdoc />
    public string Description
    {
        get
        {
            var points = string.Join("; ", _points.Select(Reading));
            var lines = string.Concat(_net.Lines.Select(line => $" Fitted, {line.Label}: {line.Fit.Parameters}."));
            return $"{What} in percent against size in micrometres in the {(IsResidue ? "Rosin-Rammler" : "log-normal")} net. {(points.Length == 0 ? "No point" : points)}.{lines}{Omitted()}";
        }
    }

    /// <inheritdoc />
    public PlotTable Numbers => new(
        ["aperture in µm", $"{What.ToLowerInvariant()} in %", "ln x", IsResidue ? "ln ln 1/R" : "normal quantile of the passing", .. _net.Lines.Select(line => $"{line.Label}: height of the line")],
        [.. _points.Select(point => (IReadOnlyList<string>)
            [
                PlotTable.Cell(point.ApertureMicrometres), PlotTable.Cell(Shown(point.PassingPercent)), PlotTable.Cell(Math.Log(point.ApertureMicrometres), 5),
                PlotTable.Cell(IsResidue ? ResidueScale.Height(Shown(point.PassingPercent)) : ProbabilityScale.Height(point.PassingPercent), 5),
                .. _net.Lines.Select(line => PlotTable.Cell(line.Fit.Ordinate(point.ApertureMicrometres), 5)),
            ])]);

    private bool IsResidue => _model == Model.RosinRammler;

    private string What => IsResidue ? "Residue" : "Passing";

    /// <summary>The Rosin-Rammler net.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A number is not finite or a size, or the slope, not above 0.</exception>
    /// <exception cref="ArgumentException">There are more than two lines, or one of another kind.</exception>
    public static NetPlot RosinRammler(Net net) => new(net, Model.RosinRammler);

    /// <summary>The log-normal net.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A number is not finite or a size, or the slope, not above 0.</exception>
    /// <exception cref="ArgumentException">There are more than two lines, or one of another kind.</exception>
    public static NetPlot LogNormal(Net net) => new(net, Model.LogNormal);

    /// <inheritdoc />
    public void Draw(IPlotSurface surface, PlotLayout layout)
    {
        ArgumentNullException.ThrowIfNull(surface);
        ArgumentNullException.ThrowIfNull(layout);
        var frame = new PlotFrame(layout, LegendEntries(layout), "Size, µm", $"{What}, %", labelEms: 3);
        var across = LogScale.Holding([.. _points.Select(point => point.ApertureMicrometres), .. Positions()], frame.Area.Left, frame.Area.Right);
        var up = Upright(frame.Area, layout);
        frame.Draw(surface, AxisTicks.Sizes(across, layout), across.Position, up.Ticks, up.Position);
        DrawLines(surface, layout, frame.Area, across, up);
        foreach (var point in _points)
        {
            using var reading = surface.Reading(Reading(point));
            var place = new PlotPoint(across.Position(point.ApertureMicrometres), up.Position(Shown(point.PassingPercent)));
            DrawBar(surface, layout, frame.Area, point, place, up);
            surface.Marker(place, PlotMarker.Disc, layout.MarkerSize, PlotInk.Curve);
        }
    }

    // So little passing that the residue is everything, in the arithmetic's eyes, has no place either.
    private static bool HasPlace(CurvePoint point) => point.PassingPercent is > 0 and < 100 && 100 - point.PassingPercent < 100;

    private double Shown(double passing) => IsResidue ? 100 - passing : passing;

    private string Reading(CurvePoint point) => IsResidue ? Words.Residue(point, _net.CoverageFactor) : Words.Reading(point, _net.CoverageFactor);

    // A fitted position far from every point would press the points together; the line is drawn, its position is not.
    private IEnumerable<double> Positions()
    {
        var (least, most) = _points.Count == 0 ? (0, double.PositiveInfinity) : (_points[0].ApertureMicrometres / 10, _points[^1].ApertureMicrometres * 10);
        return _net.Lines.Select(line => line.Fit.SizeMicrometres).Where(size => size >= least && size <= most);
    }

    private UprightScale Upright(PlotArea area, PlotLayout layout)
    {
        var (shown, distance) = (_points.Select(point => Shown(point.PassingPercent)).ToList(), layout.TextSize * 1.25);
        if (IsResidue)
        {
            var residues = new ResidueScale(shown, area.Bottom, area.Top);
            return new(residues.Ticks(distance), residues.Position, residues.PositionOfHeight);
        }

        var percents = new ProbabilityScale(shown, area.Bottom, area.Top);
        return new(percents.Ticks(distance), percents.Position, percents.PositionOfHeight);
    }

    private string Omitted() => (_net.Points.Count - _points.Count) switch
    {
        0 => string.Empty,
        1 => " One point at 0 % or 100 % has no place in the net.",
        var count => string.Create(CultureInfo.InvariantCulture, $" {count} points at 0 % or 100 % have no place in the net."),
    };

    private static PlotPen PenOf(int line, PlotLayout layout) => line == 0
        ? new PlotPen(PlotInk.Model, layout.TextSize * 0.12, PlotDash.Dashed)
        : new PlotPen(PlotInk.Text, layout.TextSize * 0.12, PlotDash.Dotted);

    private IEnumerable<LegendEntry> LegendEntries(PlotLayout layout)
    {
        yield return new("measured", null, PlotMarker.Disc, PlotInk.Curve);
        for (var i = 0; i < _net.Lines.Count; i++)
        {
            yield return new($"{_net.Lines[i].Label}: {_net.Lines[i].Fit.Parameters}", PenOf(i, layout), null, PlotInk.Model);
        }
    }

    private void DrawLines(IPlotSurface surface, PlotLayout layout, PlotArea area, LogScale across, UprightScale up)
    {
        using var clip = surface.Clip(area);
        for (var i = _net.Lines.Count - 1; i >= 0; i--)
        {
            var (label, fit) = _net.Lines[i];
            PlotPoint At(double size) => new(across.Position(size), up.PositionOfHeight(fit.Ordinate(size)));
            using var named = surface.Named($"{label}: {fit.Parameters}");
            surface.Line(At(across.Lowest), At(across.Highest), PenOf(i, layout));
            if (i == 0 && fit.SizeMicrometres >= across.Lowest && fit.SizeMicrometres <= across.Highest)
            {
                DrawPosition(surface, layout, area, At(fit.SizeMicrometres));
            }
        }
    }

    private void DrawPosition(IPlotSurface surface, PlotLayout layout, PlotArea area, PlotPoint middle)
    {
        var thin = new PlotPen(PlotInk.Percentile, layout.TextSize * 0.08, PlotDash.Dotted);
        surface.Line(new(area.Left, middle.Y), middle, thin);
        surface.Line(middle, new(middle.X, area.Bottom), thin);
        surface.Marker(middle, PlotMarker.Diamond, layout.MarkerSize * 1.15, PlotInk.Percentile);
        surface.Text(new(middle.X + (layout.TextSize * 0.6), area.Bottom - (layout.TextSize * 0.5)), IsResidue ? "x′" : "x50", new PlotText(layout.TextSize));
    }

    // A bar that reaches 0 or 100 % runs to the edge: there is no end in the net.
    private void DrawBar(IPlotSurface surface, PlotLayout layout, PlotArea area, CurvePoint point, PlotPoint place, UprightScale up)
    {
        if (point.StandardUncertaintyPercent * _net.CoverageFactor is not { } half)
        {
            return;
        }

        double End(double passing, double edge) => HasPlace(point with { PassingPercent = passing }) ? Math.Clamp(up.Position(Shown(passing)), area.Top, area.Bottom) : edge;
        var (from, to) = (End(point.PassingPercent - half, area.Bottom), End(point.PassingPercent + half, area.Top));
        surface.Line(place with { Y = from }, place with { Y = to }, new PlotPen(PlotInk.Curve, layout.TextSize * 0.09));
    }

    /// <summary>The upright scale of the net: ticks and places of percentages, and places of heights.</summary>
    private sealed record UprightScale(IReadOnlyList<Tick> Ticks, Func<double, double> Position, Func<double, double> PositionOfHeight);
}
