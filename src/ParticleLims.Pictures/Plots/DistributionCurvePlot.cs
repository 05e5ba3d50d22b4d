using System.Globalization;
using ParticleLims.Pictures.Drawing;
using ParticleLims.Pictures.Scales;

namespace ParticleLims.Pictures.Plots;

/// <summary>
/// Passing in percent over the aperture on a logarithmic scale. Points are joined by straight lines, which is linear interpolation
/// over ln x, unless the curve between them is given. Beside them stand the specification's gates, the sizes read from the curve and a fitted model.
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
    public PlotTable Numbers => new(
        ["aperture in µm", "passing in %", "standard uncertainty of the passing in %", "standard uncertainty of the aperture in µm", .. Names()],
        [.. _points.Select(point => (IReadOnlyList<string>)
            [
                PlotTable.Cell(point.ApertureMicrometres), PlotTable.Cell(point.PassingPercent), PlotTable.Cell(point.StandardUncertaintyPercent), PlotTable.Cell(point.ApertureStandardUncertaintyMicrometres),
                .. _curve.Others.Select(other => PlotTable.Cell(PassingAt(other, point.ApertureMicrometres))),
                .. _curve.Model is { } model ? new[] { PlotTable.Cell(model.PassingPercent(point.ApertureMicrometres), 4) } : [],
            ])]);

    /// <inheritdoc />
    public void Draw(IPlotSurface surface, PlotLayout layout)
    {
        ArgumentNullException.ThrowIfNull(surface);
        ArgumentNullException.ThrowIfNull(layout);
        var frame = new PlotFrame(layout, LegendEntries(layout), "Aperture, µm", "Passing, %", labelEms: 2);
        var across = LogScale.Holding(Sizes(), frame.Area.Left, frame.Area.Right);
        var up = new LinearScale(0, 100, frame.Area.Bottom, frame.Area.Top);
        frame.Draw(surface, AxisTicks.Sizes(across, layout), across.Position, AxisTicks.Percents(layout), up.Position);
        new CurveDrawing(_curve, _points, surface, layout, frame.Area, across, up).Draw();
    }

    private static double? PassingAt(OtherCurve other, double micrometres)
    {
        foreach (var point in other.Points.Where(point => point.ApertureMicrometres == micrometres))
        {
            return point.PassingPercent;
        }

        return null;
    }

    private IEnumerable<string> Names() =>
        [.. _curve.Others.Select(other => $"passing of {other.Label} in %"), .. _curve.Model is { } model ? new[] { $"passing by {model.Name} in %" } : []];

    private List<double> Sizes() =>
    [
        .. _points.Concat(_curve.Others.SelectMany(other => other.Points)).Select(point => point.ApertureMicrometres),
        .. _curve.Gates.SelectMany(gate => gate.ApertureMicrometres is { } aperture ? [aperture] : new[] { gate.Lower, gate.Upper }.OfType<double>()),
        .. _curve.Percentiles.SelectMany(mark => mark.Interval is { } range ? new[] { mark.Micrometres, range.FromMicrometres, range.ToMicrometres } : [mark.Micrometres]),
    ];

    private IEnumerable<LegendEntry> LegendEntries(PlotLayout layout)
    {
        var size = layout.TextSize;
        var bars = _points.Any(point => point.StandardUncertaintyPercent is not null || point.ApertureStandardUncertaintyMicrometres is not null);
        var measured = bars ? string.Create(CultureInfo.InvariantCulture, $"measured (bars: k = {_curve.CoverageFactor:0.##})") : "measured";
        yield return new(layout.Compact ? "measured" : measured, new PlotPen(PlotInk.Curve, size * 0.15), PlotMarker.Disc, PlotInk.Curve);
        if (_curve.Others.Count > 0)
        {
            yield return new("other runs", new PlotPen(PlotInk.Replicate, size * 0.1), null, PlotInk.Replicate);
        }

        if (_curve.Model is { } model)
        {
            yield return new(model.Name, new PlotPen(PlotInk.Model, size * 0.12, PlotDash.Dashed), null, PlotInk.Model);
        }

        if (_curve.Gates.Count > 0)
        {
            yield return new("limit", new PlotPen(PlotInk.Gate, size * 0.32), null, PlotInk.Gate);
        }

        if (_curve.Percentiles.Count > 0)
        {
            var read = _curve.Percentiles.Any(mark => mark.Interval is not null) ? "read, with its interval" : "read from the curve";
            yield return new(layout.Compact ? "read" : read, null, PlotMarker.Diamond, PlotInk.Percentile);
        }
    }

    private IEnumerable<string> Sentences()
    {
        yield return _points.Count == 0
            ? "Passing in percent against aperture in micrometres, no point measured yet"
            : "Passing in percent against aperture in micrometres. " + string.Join("; ", _points.Select(point => Words.Reading(point, _curve.CoverageFactor)));
        if (_curve.Percentiles.Count > 0)
        {
            yield return "Read from the curve: " + string.Join("; ", _curve.Percentiles.Select(Words.Mark));
        }

        foreach (var gate in _curve.Gates)
        {
            yield return Words.Window(gate);
        }

        if (_curve.Model is { } model)
        {
            yield return $"Fitted model, {model.Name}: {model.Parameters}";
        }

        if (_curve.Others.Count > 0)
        {
            yield return "Other runs: " + string.Join(", ", _curve.Others.Select(other => other.Label));
        }
    }
}
