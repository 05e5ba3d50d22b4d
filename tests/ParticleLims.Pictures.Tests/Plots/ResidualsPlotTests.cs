using ParticleLims.Pictures.Drawing;
using ParticleLims.Pictures.Plots;
using Shouldly;
using Xunit;

namespace ParticleLims.Pictures.Tests.Plots;

public sealed class ResidualsPlotTests
{
    private static readonly Residuals _one = new()
    {
        Title = "Residuals",
        Fits = [new("Rosin-Rammler", [new(63, -0.5), new(20, 1), new(45, 0)])],
        Uncertainties = [new(20, 0.25), new(45, 0.25), new(63, 0.25)],
    };

    [Fact]
    public void A_point_above_the_zero_line_was_measured_higher_than_fitted()
    {
        var drawn = Draw(_one);
        var zero = ZeroOf(drawn);
        drawn.Readings.ShouldBe(["Rosin-Rammler, 20 µm: +1 % measured less fitted", "Rosin-Rammler, 45 µm: 0 % measured less fitted", "Rosin-Rammler, 63 µm: -0.5 % measured less fitted"]);
        var heights = drawn.Markers.Skip(1).Select(marker => zero - marker.Centre.Y).ToList();
        heights[1].ShouldBe(0, 1e-9);
        (heights[0] / heights[2]).ShouldBe(-2, 1e-9);
    }

    [Fact]
    public void The_band_is_the_expanded_uncertainty_to_both_sides_of_zero()
    {
        var drawn = Draw(_one);
        var zero = ZeroOf(drawn);
        var band = drawn.Polylines.Where(line => line.Pen.Ink == PlotInk.Gate).Select(line => line.Points[0].Y - zero).ToList();
        band.Sum().ShouldBe(0, 1e-9);

        // 2 x 0.25 % is half as far from zero as the point that lies 1 % above it.
        (Math.Abs(band[0]) / (zero - drawn.Markers[1].Centre.Y)).ShouldBe(0.5, 1e-9);
        Draw(_one with { Uncertainties = [] }).Polylines.ShouldNotContain(line => line.Pen.Ink == PlotInk.Gate);
    }

    [Fact]
    public void Fits_differ_in_sign_and_stroke_and_a_fourth_is_refused()
    {
        var fits = Enumerable.Range(1, 3).Select(i => new ResidualFit($"fit {i}", [new(20, i), new(45, -i)])).ToList();
        var drawn = Draw(_one with { Fits = fits, Uncertainties = [] });
        drawn.Markers.Skip(3).Select(marker => marker.Marker).Distinct().Count().ShouldBe(3);
        drawn.Polylines.Select(line => line.Pen.Dash).Distinct().Count().ShouldBe(3);
        Should.Throw<ArgumentException>(() => Draw(_one with { Fits = [.. fits, fits[0]] }));
    }

    [Fact]
    public void A_perfect_fit_lies_on_the_zero_line_and_not_in_the_noise_of_the_arithmetic()
    {
        var drawn = Draw(_one with { Fits = [new("Rosin-Rammler", [new(20, 3e-15), new(45, -2e-14)])], Uncertainties = [] });
        drawn.Markers.Skip(1).ShouldAllBe(marker => Math.Abs(marker.Centre.Y - ZeroOf(drawn)) < 0.01);
    }

    [Fact]
    public void The_table_holds_every_fit_at_every_aperture()
    {
        var plot = new ResidualsPlot(_one with { Fits = [.. _one.Fits, new("log-normal", [new(90, 0.123456)])] });
        plot.Numbers.Rows.ShouldBe([["20", "1", "", "0.25"], ["45", "0", "", "0.25"], ["63", "-0.5", "", "0.25"], ["90", "", "0.1235", ""]]);
    }

    private static double ZeroOf(RecordingSurface drawn) => drawn.Lines.Single(line => line.Pen.Ink == PlotInk.Axis && line.Pen.Width > 1 && line.From.Y == line.To.Y).From.Y;

    private static RecordingSurface Draw(Residuals residuals)
    {
        var surface = new RecordingSurface();
        new ResidualsPlot(residuals).Draw(surface, PlotLayout.Page);
        return surface;
    }
}
