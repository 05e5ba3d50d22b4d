using System.Globalization;
using ParticleLims.Pictures.Drawing;
using ParticleLims.Pictures.Scales;

namespace ParticleLims.Pictures.Plots;

/// <summary>What a strip of pressure shows: the differential pressure over the time of sieving.</summary>
public sealed record PressureStrip
{
    /// <summary>The name of the picture.</summary>
    public required string Title { get; init; }

    /// <summary>The pressure at moments, in order.</summary>
    public required IReadOnlyList<PressureStripPoint> Points { get; init; }

    /// <summary>The least pressure that the method allows, in kPa; null for none.</summary>
    public double? LowestKilopascals { get; init; }

    /// <summary>The most pressure that the method allows, in kPa; null for none.</summary>
    public double? HighestKilopascals { get; init; }
}

/// <summary>The pressure at a moment.</summary>
/// <param name="Seconds">Seconds since the first point.</param>
/// <param name="Kilopascals">The pressure in kPa.</param>
public sealed record PressureStripPoint(double Seconds, double Kilopascals);

/// <summary>The differential pressure over time with the method's band as two lines.</summary>
public sealed class PressureStripPlot : IPlot
{
    private readonly PressureStrip strip;

    /// <summary>A plot of a strip.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A number is not finite.</exception>
    /// <exception cref="ArgumentException">There are fewer than two points.</exception>
    public PressureStripPlot(PressureStrip strip)
    {
        ArgumentNullException.ThrowIfNull(strip);
        if (strip.Points.Count < 2)
        {
            throw new ArgumentException("A strip has two points at least.", nameof(strip));
        }

        foreach (var point in strip.Points)
        {
            CurveChecks.Finite(point.Seconds, "a moment");
            CurveChecks.Finite(point.Kilopascals, "a pressure");
        }

        this.strip = strip;
    }

    /// <inheritdoc />
    public string Title => strip.Title;

    /// <inheritdoc />
    public string Description
    {
        get
        {
            var (least, most) = (strip.Points.Min(point => point.Kilopascals), strip.Points.Max(point => point.Kilopascals));
            return string.Create(CultureInfo.InvariantCulture, $"Differential pressure in kilopascals over {strip.Points[^1].Seconds:0} seconds: between {least:0.0##} and {most:0.0##}{Band()}.");
        }
    }

    /// <inheritdoc />
    public PlotTable Numbers => new(["time in s", "pressure in kPa"], [.. strip.Points.Select(point => (IReadOnlyList<string>)[PlotTable.Cell(point.Seconds, 3), PlotTable.Cell(point.Kilopascals, 4)])]);

    /// <inheritdoc />
    public void Draw(IPlotSurface surface, PlotLayout layout)
    {
        ArgumentNullException.ThrowIfNull(surface);
        ArgumentNullException.ThrowIfNull(layout);
        List<double> values = [.. strip.Points.Select(point => point.Kilopascals), .. Bounds()];
        List<double> moments = [0, strip.Points[^1].Seconds];
        var ticks = LinearScale.Holding(values, 0, 1).Ticks(AxisTicks.MostUpwards(layout));
        var pen = new PlotPen(PlotInk.Curve, layout.TextSize * 0.11);
        var bound = new PlotPen(PlotInk.Gate, layout.TextSize * 0.12, PlotDash.Dashed);
        IEnumerable<LegendEntry> legend = Bounds().Any() ? [new LegendEntry("pressure", pen, null, PlotInk.Curve), new LegendEntry("method's band", bound, null, PlotInk.Gate)] : [];
        var frame = new PlotFrame(layout, legend, "Time, s", "Pressure, kPa", AxisTicks.Widest(ticks));
        var across = LinearScale.Holding(moments, frame.Area.Left, frame.Area.Right);
        var up = LinearScale.Holding(values, frame.Area.Bottom, frame.Area.Top);
        frame.Draw(surface, across.Ticks(layout.Compact ? 4 : 8), across.Position, ticks, up.Position);
        foreach (var limit in Bounds())
        {
            surface.Line(new(frame.Area.Left, up.Position(limit)), new(frame.Area.Right, up.Position(limit)), bound);
        }

        using var named = surface.Named("pressure");
        surface.Polyline([.. strip.Points.Select(point => new PlotPoint(across.Position(point.Seconds), up.Position(point.Kilopascals)))], pen);
    }

    private IEnumerable<double> Bounds() => new[] { strip.LowestKilopascals, strip.HighestKilopascals }.OfType<double>();

    private string Band() => (strip.LowestKilopascals, strip.HighestKilopascals) is ({ } from, { } to)
        ? string.Create(CultureInfo.InvariantCulture, $"; the method asks for {from:0.0##} to {to:0.0##}")
        : string.Empty;
}
