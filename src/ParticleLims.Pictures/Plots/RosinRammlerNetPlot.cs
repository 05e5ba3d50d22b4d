using System.Globalization;
using ParticleLims.Pictures.Drawing;
using ParticleLims.Pictures.Scales;

namespace ParticleLims.Pictures.Plots;

/// <summary>What the Rosin-Rammler net shows: the measured points and the line fitted to them.</summary>
public sealed record RosinRammlerNet
{
    /// <summary>The name of the picture.</summary>
    public required string Title { get; init; }

    /// <summary>The measured points in any order; those with nothing or everything passing have no place in the net and are only counted.</summary>
    public required IReadOnlyList<CurvePoint> Points { get; init; }

    /// <summary>The fitted line.</summary>
    public RosinRammlerLine? Line { get; init; }
}

/// <summary>
/// The residue R in the net in which R = exp(-(x/x')^n) is straight: ln x across, ln ln(1/R) up, labelled in percent of residue.
/// </summary>
public sealed class RosinRammlerNetPlot : IPlot
{
    private readonly RosinRammlerNet _net;
    private readonly IReadOnlyList<CurvePoint> _points;

    /// <summary>A plot of the net.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A number is not finite or a size, or the slope, not above 0.</exception>
    public RosinRammlerNetPlot(RosinRammlerNet net)
    {
        ArgumentNullException.ThrowIfNull(net);
        CurveChecks.Check(new DistributionCurve { Title = net.Title, Points = net.Points, Model = net.Line });
        _net = net;
        _points = [.. net.Points.Where(point => point.PassingPercent is > 0 and < 100).OrderBy(point => point.ApertureMicrometres)];
    }

    /// <inheritdoc />
    public string Title => _net.Title;

    /// <inheritdoc />
    public string Description
    {
        get
        {
            var points = string.Join("; ", _points.Select(Reading));
            var line = _net.Line is { } fitted ? $" Fitted line: {LineInWords(fitted)}." : string.Empty;
            return $"Residue in percent against size in micrometres in the Rosin-Rammler net. {(points.Length == 0 ? "No point" : points)}.{line}{Omitted()}";
        }
    }

    /// <inheritdoc />
    public void Draw(IPlotSurface surface, PlotLayout layout)
    {
        ArgumentNullException.ThrowIfNull(surface);
        ArgumentNullException.ThrowIfNull(layout);
        var frame = new PlotFrame(layout, LegendEntries(layout), "Size, µm", "Residue, %", labelEms: 2.6);
        var across = LogScale.Holding([.. _points.Select(point => point.ApertureMicrometres), .. LineSizes()], frame.Area.Left, frame.Area.Right);
        var up = new ResidueScale([.. _points.Select(point => 100 - point.PassingPercent)], frame.Area.Bottom, frame.Area.Top);
        frame.Draw(surface, across.Ticks(layout.TextSize * (layout.Compact ? 2.6 : 2)), across.Position, up.Ticks(layout.TextSize * 1.25), up.Position);
        DrawLine(surface, layout, frame.Area, across, up);
        foreach (var point in _points)
        {
            using var reading = surface.Reading(Reading(point));
            surface.Marker(new(across.Position(point.ApertureMicrometres), up.Position(100 - point.PassingPercent)), PlotMarker.Disc, layout.MarkerSize, PlotInk.Curve);
        }
    }

    private static string Reading(CurvePoint point) => $"{Words.Size(point.ApertureMicrometres)}: {Words.Percent(100 - point.PassingPercent)} residue";

    private static string LineInWords(RosinRammlerLine line) => $"x′ = {Words.Size(line.SizeMicrometres)}, n = {Words.Significant(line.Slope)}";

    private IEnumerable<double> LineSizes() => _net.Line is { } line ? [line.SizeMicrometres] : [];

    private string Omitted()
    {
        var count = _net.Points.Count - _points.Count;
        return count switch
        {
            0 => string.Empty,
            1 => " One point at 0 % or 100 % has no place in the net.",
            _ => string.Create(CultureInfo.InvariantCulture, $" {count} points at 0 % or 100 % have no place in the net."),
        };
    }

    private IEnumerable<LegendEntry> LegendEntries(PlotLayout layout)
    {
        yield return new("measured", null, PlotMarker.Disc, PlotInk.Curve);
        if (_net.Line is { } line)
        {
            yield return new(LineInWords(line), new PlotPen(PlotInk.Model, layout.TextSize * 0.12, PlotDash.Dashed), null, PlotInk.Model);
        }
    }

    private void DrawLine(IPlotSurface surface, PlotLayout layout, PlotArea area, LogScale across, ResidueScale up)
    {
        if (_net.Line is not { } line)
        {
            return;
        }

        using var clip = surface.Clip(area);
        PlotPoint At(double size) => new(across.Position(size), up.PositionOfHeight(line.Slope * Math.Log(size / line.SizeMicrometres)));
        var thin = new PlotPen(PlotInk.Percentile, layout.TextSize * 0.08, PlotDash.Dotted);
        var middle = At(line.SizeMicrometres);
        surface.Line(new(area.Left, middle.Y), middle, thin);
        surface.Line(middle, new(middle.X, area.Bottom), thin);
        surface.Line(At(across.Lowest), At(across.Highest), new PlotPen(PlotInk.Model, layout.TextSize * 0.12, PlotDash.Dashed));
        surface.Marker(middle, PlotMarker.Diamond, layout.MarkerSize * 1.15, PlotInk.Percentile);
        surface.Text(new(middle.X + (layout.TextSize * 0.6), area.Bottom - (layout.TextSize * 0.5)), "x′", new PlotText(layout.TextSize));
    }
}
