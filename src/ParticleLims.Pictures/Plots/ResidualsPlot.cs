using System.Globalization;
using ParticleLims.Pictures.Drawing;
using ParticleLims.Pictures.Scales;

namespace ParticleLims.Pictures.Plots;

/// <summary>What a picture of residuals shows: how far the measured points lie from fitted models.</summary>
public sealed record Residuals
{
    /// <summary>The name of the picture.</summary>
    public required string Title { get; init; }

    /// <summary>The fits, at most three, told apart by sign and stroke.</summary>
    public required IReadOnlyList<ResidualFit> Fits { get; init; }

    /// <summary>The standard uncertainties (k = 1) of the passing, where they are known; the band is drawn round zero.</summary>
    public IReadOnlyList<ResidualUncertainty> Uncertainties { get; init; } = [];

    /// <summary>By what the standard uncertainties are multiplied for the band; 2 unless said otherwise.</summary>
    public double CoverageFactor { get; init; } = 2;
}

/// <summary>The residuals of one fit.</summary>
/// <param name="Label">Its name, for example the model's.</param>
/// <param name="Points">Measured less fitted passing at each aperture.</param>
public sealed record ResidualFit(string Label, IReadOnlyList<ResidualPoint> Points);

/// <summary>One residual.</summary>
/// <param name="ApertureMicrometres">The aperture in µm.</param>
/// <param name="DifferencePercent">Measured less fitted passing, in percentage points.</param>
public sealed record ResidualPoint(double ApertureMicrometres, double DifferencePercent);

/// <summary>How uncertain a measured passing is.</summary>
/// <param name="ApertureMicrometres">The aperture in µm.</param>
/// <param name="StandardUncertaintyPercent">Its standard uncertainty in percentage points.</param>
public sealed record ResidualUncertainty(double ApertureMicrometres, double StandardUncertaintyPercent);

/// <summary>Measured less fitted passing over the logarithm of the aperture. A model that fits scatters about zero; a bend says that another should be tried.</summary>
public sealed class ResidualsPlot : IPlot
{
    private static readonly (PlotMarker Marker, PlotDash Dash, PlotInk Ink)[] Signs =
        [(PlotMarker.Disc, PlotDash.Solid, PlotInk.Curve), (PlotMarker.Diamond, PlotDash.Dashed, PlotInk.Model), (PlotMarker.Square, PlotDash.Dotted, PlotInk.Text)];

    private readonly Residuals _residuals;

    /// <summary>A plot of the residuals.</summary>
    /// <exception cref="ArgumentOutOfRangeException">A number is not finite, a size not above 0, or an uncertainty negative.</exception>
    /// <exception cref="ArgumentException">There are more than three fits.</exception>
    public ResidualsPlot(Residuals residuals)
    {
        ArgumentNullException.ThrowIfNull(residuals);
        foreach (var point in residuals.Fits.SelectMany(fit => fit.Points))
        {
            CurveChecks.Size(point.ApertureMicrometres, "a point's aperture");
            CurveChecks.Finite(point.DifferencePercent, "a residual");
        }

        foreach (var one in residuals.Uncertainties)
        {
            CurveChecks.Size(one.ApertureMicrometres, "a point's aperture");
            CurveChecks.Uncertainty(one.StandardUncertaintyPercent);
        }

        if (residuals.Fits.Count > Signs.Length)
        {
            throw new ArgumentException("Three fits can be told apart in one picture.", nameof(residuals));
        }

        _residuals = residuals;
    }

    /// <inheritdoc />
    public string Title => _residuals.Title;

    /// <inheritdoc />
    public string Description
    {
        get
        {
            var fits = string.Concat(_residuals.Fits.Select(fit => $" {fit.Label}: {(fit.Points.Count == 0 ? "no point" : string.Join("; ", Rising(fit).Select(InWords)))}."));
            var band = _residuals.Uncertainties.Count == 0 ? string.Empty : $" Round zero the {Band}.";
            return $"Measured less fitted passing in percent against aperture in micrometres.{fits}{band}";
        }
    }

    /// <inheritdoc />
    public PlotTable Numbers => new(
        ["aperture in µm", .. _residuals.Fits.Select(fit => $"measured less fitted in %, {fit.Label}"), "standard uncertainty in %"],
        [.. Apertures().Distinct().Order().Select(aperture => (IReadOnlyList<string>)
            [
                PlotTable.Cell(aperture),
                .. _residuals.Fits.Select(fit => fit.Points.FirstOrDefault(point => point.ApertureMicrometres == aperture) is { } found ? PlotTable.Cell(found.DifferencePercent, 4) : string.Empty),
                PlotTable.Cell(_residuals.Uncertainties.FirstOrDefault(one => one.ApertureMicrometres == aperture)?.StandardUncertaintyPercent),
            ])]);

    private string Band => string.Create(CultureInfo.InvariantCulture, $"band of the measurement (k = {_residuals.CoverageFactor:0.##})");

    /// <inheritdoc />
    public void Draw(IPlotSurface surface, PlotLayout layout)
    {
        ArgumentNullException.ThrowIfNull(surface);
        ArgumentNullException.ThrowIfNull(layout);
        var values = _residuals.Fits.SelectMany(fit => fit.Points).Select(point => point.DifferencePercent).Concat(Half().SelectMany(one => new[] { one.Half, -one.Half })).Append(0).ToList();
        var ticks = LinearScale.Holding(values, 0, 1).Ticks(AxisTicks.MostUpwards(layout));
        var frame = new PlotFrame(layout, LegendEntries(layout), "Aperture, µm", "Measured less fitted, %", AxisTicks.Widest(ticks));
        var across = LogScale.Holding([.. Apertures()], frame.Area.Left, frame.Area.Right);
        var up = LinearScale.Holding(values, frame.Area.Bottom, frame.Area.Top);
        frame.Draw(surface, AxisTicks.Sizes(across, layout), across.Position, ticks, up.Position);
        surface.Line(new(frame.Area.Left, up.Position(0)), new(frame.Area.Right, up.Position(0)), new PlotPen(PlotInk.Axis, layout.TextSize * 0.1));
        DrawBand(surface, layout, across, up);
        for (var i = _residuals.Fits.Count - 1; i >= 0; i--)
        {
            DrawFit(surface, layout, _residuals.Fits[i], Signs[i], point => new(across.Position(point.ApertureMicrometres), up.Position(point.DifferencePercent)));
        }
    }

    private static IEnumerable<ResidualPoint> Rising(ResidualFit fit) => fit.Points.OrderBy(point => point.ApertureMicrometres);

    private static string InWords(ResidualPoint point) => $"{Words.Size(point.ApertureMicrometres)}: {Signed(point.DifferencePercent)} %";

    private static string Signed(double value) => (value > 0 ? "+" : string.Empty) + Words.Significant(Math.Round(value, 3));

    private static void DrawFit(IPlotSurface surface, PlotLayout layout, ResidualFit fit, (PlotMarker Marker, PlotDash Dash, PlotInk Ink) sign, Func<ResidualPoint, PlotPoint> place)
    {
        using (surface.Named(fit.Label))
        {
            surface.Polyline([.. Rising(fit).Select(place)], new PlotPen(sign.Ink, layout.TextSize * 0.09, sign.Dash));
        }

        foreach (var point in Rising(fit))
        {
            using var reading = surface.Reading($"{fit.Label}, {InWords(point)} measured less fitted");
            surface.Marker(place(point), sign.Marker, layout.MarkerSize * 1.1, sign.Ink);
        }
    }

    private IEnumerable<double> Apertures() =>
        _residuals.Fits.SelectMany(fit => fit.Points).Select(point => point.ApertureMicrometres).Concat(_residuals.Uncertainties.Select(one => one.ApertureMicrometres));

    private IEnumerable<(double Aperture, double Half)> Half() =>
        _residuals.Uncertainties.OrderBy(one => one.ApertureMicrometres).Select(one => (one.ApertureMicrometres, one.StandardUncertaintyPercent * _residuals.CoverageFactor));

    private IEnumerable<LegendEntry> LegendEntries(PlotLayout layout)
    {
        var entries = _residuals.Fits.Select((fit, i) => new LegendEntry(fit.Label, new PlotPen(Signs[i].Ink, layout.TextSize * 0.09, Signs[i].Dash), Signs[i].Marker, Signs[i].Ink));
        return _residuals.Uncertainties.Count == 0 ? entries : entries.Append(new LegendEntry(layout.Compact ? "uncertainty" : Band, BandPen(layout), null, PlotInk.Gate));
    }

    private static PlotPen BandPen(PlotLayout layout) => new(PlotInk.Gate, layout.TextSize * 0.14);

    private void DrawBand(IPlotSurface surface, PlotLayout layout, LogScale across, LinearScale up)
    {
        if (_residuals.Uncertainties.Count == 0)
        {
            return;
        }

        using var named = surface.Named(Band);
        foreach (var side in (ReadOnlySpan<int>)[1, -1])
        {
            surface.Polyline([.. Half().Select(one => new PlotPoint(across.Position(one.Aperture), up.Position(side * one.Half)))], BandPen(layout));
        }
    }
}
