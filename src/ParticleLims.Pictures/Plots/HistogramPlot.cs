using System.Globalization;
using ParticleLims.Pictures.Drawing;
using ParticleLims.Pictures.Scales;

namespace ParticleLims.Pictures.Plots;

/// <summary>What a histogram shows: the share of the mass in each class of sizes.</summary>
public sealed record Histogram
{
    /// <summary>The name of the picture.</summary>
    public required string Title { get; init; }

    /// <summary>The classes in any order, with the open ends.</summary>
    public required IReadOnlyList<HistogramClass> Classes { get; init; }

    /// <summary>
    /// Whether the height of a bar is the density q3*(ln x), so that its area is the share of the mass; otherwise its height is the share, which depends on how wide the classes are.
    /// </summary>
    public bool IsDensity { get; init; }
}

/// <summary>A class of sizes.</summary>
/// <param name="FromMicrometres">Its finer aperture in µm; null below the finest.</param>
/// <param name="ToMicrometres">Its coarser aperture in µm; null above the coarsest.</param>
/// <param name="Percent">Its share of the mass in percent, not negative.</param>
public sealed record HistogramClass(double? FromMicrometres, double? ToMicrometres, double Percent)
{
    /// <summary>The share, as a fraction, over the difference of the natural logarithms of the apertures; null at an open end.</summary>
    public double? LogarithmicDensity => this is { FromMicrometres: { } from, ToMicrometres: { } to } ? Percent / 100 / Math.Log(to / from) : null;

    internal string Range => (FromMicrometres, ToMicrometres) switch
    {
        ({ } from, { } to) => $"{Words.Size(from)} to {Words.Size(to)}",
        (null, { } to) => $"below {Words.Size(to)}",
        ({ } from, null) => $"above {Words.Size(from)}",
        _ => "all sizes",
    };
}

/// <summary>The shares of the mass by class over the logarithm of the size. What lies in the open ends has no width to be drawn over and is told in words.</summary>
public sealed class HistogramPlot : IPlot
{
    private readonly Histogram _histogram;
    private readonly IReadOnlyList<HistogramClass> _classes;

    /// <summary>A plot of the histogram.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A size is not above 0, or a share negative or not finite.</exception>
    /// <exception cref="ArgumentException">A class has no bound, or does not end above its beginning.</exception>
    public HistogramPlot(Histogram histogram)
    {
        ArgumentNullException.ThrowIfNull(histogram);
        foreach (var one in histogram.Classes)
        {
            Check(one);
        }

        _histogram = histogram;
        _classes = [.. histogram.Classes.OrderBy(one => one.FromMicrometres ?? 0)];
    }

    /// <inheritdoc />
    public string Title => _histogram.Title;

    /// <inheritdoc />
    public string Description
    {
        get
        {
            var what = _histogram.IsDensity ? "Density q3*(ln x), without unit, over size in micrometres; beside it the share of the mass" : "Share of the mass in percent by class of size";
            return $"{what}. {(_classes.Count == 0 ? "No class" : string.Join("; ", _classes.Select(InWords)))}.";
        }
    }

    /// <inheritdoc />
    public PlotTable Numbers => new(
        ["from in µm", "to in µm", "share of the mass in %", "density q3*(ln x)"],
        [.. _classes.Select(one => (IReadOnlyList<string>)[PlotTable.Cell(one.FromMicrometres), PlotTable.Cell(one.ToMicrometres), PlotTable.Cell(one.Percent), one.LogarithmicDensity is { } density ? PlotTable.Cell(density, 5) : string.Empty])]);

    private IEnumerable<HistogramClass> Closed => _classes.Where(one => one.LogarithmicDensity is not null);

    /// <inheritdoc />
    public void Draw(IPlotSurface surface, PlotLayout layout)
    {
        ArgumentNullException.ThrowIfNull(surface);
        ArgumentNullException.ThrowIfNull(layout);
        var highest = Math.Max(Closed.Select(Height).DefaultIfEmpty(0).Max() * 1.15, 1e-6);
        var ticks = new LinearScale(0, highest, 0, 1).Ticks(AxisTicks.MostUpwards(layout));
        var frame = new PlotFrame(layout, OpenEnds(), "Size, µm", _histogram.IsDensity ? "Density q3*(ln x)" : "Share of the mass, %", AxisTicks.Widest(ticks));
        var across = LogScale.Holding([.. Closed.SelectMany(one => new[] { one.FromMicrometres!.Value, one.ToMicrometres!.Value })], frame.Area.Left, frame.Area.Right);
        var up = new LinearScale(0, highest, frame.Area.Bottom, frame.Area.Top);
        frame.Draw(surface, AxisTicks.Sizes(across, layout), across.Position, ticks, up.Position);
        foreach (var one in Closed)
        {
            DrawBar(surface, layout, one, across, up);
        }
    }

    private static void Check(HistogramClass one)
    {
        foreach (var bound in new[] { one.FromMicrometres, one.ToMicrometres }.OfType<double>())
        {
            CurveChecks.Size(bound, "an aperture of a class");
        }

        CurveChecks.Finite(one.Percent, "a share");
        if (one.Percent < 0)
        {
            throw new ArgumentOutOfRangeException(nameof(one), one.Percent, "A share is not negative.");
        }

        if (one is { FromMicrometres: null, ToMicrometres: null } || one.ToMicrometres <= one.FromMicrometres)
        {
            throw new ArgumentException($"A class has a bound and ends above its beginning, not at {one.Range}.", nameof(one));
        }
    }

    private double Height(HistogramClass one) => _histogram.IsDensity ? one.LogarithmicDensity!.Value : one.Percent;

    private string InWords(HistogramClass one) =>
        $"{one.Range}: {Words.Percent(one.Percent)}" + (_histogram.IsDensity && one.LogarithmicDensity is { } density ? $", density {Words.Significant(density)}" : string.Empty);

    private IEnumerable<LegendEntry> OpenEnds() =>
        _classes.Where(one => one.LogarithmicDensity is null).Select(one => LegendEntry.Remark($"{one.Range}, not drawn: {Words.Percent(Math.Round(one.Percent, 2))}"));

    private void DrawBar(IPlotSurface surface, PlotLayout layout, HistogramClass one, LogScale across, LinearScale up)
    {
        var (left, right, top) = (across.Position(one.FromMicrometres!.Value), across.Position(one.ToMicrometres!.Value), up.Position(Height(one)));
        var gap = Math.Min(layout.TextSize * 0.06, (right - left) * 0.2);
        using (surface.Reading(InWords(one)))
        {
            surface.Shape(new PlotArea(left + gap, top, right - left - (2 * gap), up.Position(0) - top).Corners(), PlotInk.Curve);
        }

        var label = Height(one) < 1e7 ? Height(one).ToString(_histogram.IsDensity ? "F2" : "F1", CultureInfo.InvariantCulture) : Words.Significant(Height(one));
        if (TextExtent.Width(label, layout.TextSize) < right - left)
        {
            surface.Text(new((left + right) / 2, top - (layout.TextSize * 0.35)), label, new PlotText(layout.TextSize, PlotAnchor.Middle));
        }
    }
}
