using CsCheck;
using ParticleLims.Pictures.Drawing;
using ParticleLims.Pictures.Plots;
using Shouldly;
using Xunit;

namespace ParticleLims.Pictures.Tests.Plots;

public sealed class RosinRammlerNetPlotTests
{
    [Fact]
    public void Points_of_a_Rosin_Rammler_distribution_lie_on_its_straight_line()
    {
        Gen.Select(Gen.Double[5, 500], Gen.Double[0.6, 3]).Sample((size, slope) =>
        {
            var line = new RosinRammlerLine(size, slope);
            var points = new[] { 0.4, 0.7, 1.2 }.Select(share => new CurvePoint(size * share, line.PassingPercent(size * share))).ToList();
            var drawn = Draw(new RosinRammlerNet { Title = "Net", Points = points, Line = line });
            var fitted = drawn.Lines.Single(drawn => drawn.Pen.Ink == PlotInk.Model && drawn.From.X < drawn.To.X && drawn.From.Y > drawn.To.Y);
            var slopeOnPaper = (fitted.To.Y - fitted.From.Y) / (fitted.To.X - fitted.From.X);
            foreach (var marker in drawn.Markers.Where(marker => marker.Ink == PlotInk.Curve).Skip(1))
            {
                marker.Centre.Y.ShouldBe(fitted.From.Y + ((marker.Centre.X - fitted.From.X) * slopeOnPaper), 1e-6);
            }
        });
    }

    [Fact]
    public void Points_at_nothing_and_everything_are_left_out_and_counted()
    {
        var points = new[] { new CurvePoint(20, 0), new CurvePoint(45, 40), new CurvePoint(63, 70), new CurvePoint(250, 100) };
        var plot = new RosinRammlerNetPlot(new RosinRammlerNet { Title = "Net", Points = points });
        plot.Description.ShouldContain("2 points at 0 % or 100 % have no place in the net.");
        var surface = new RecordingSurface();
        plot.Draw(surface, PlotLayout.Page);
        surface.Readings.ShouldBe(["45 µm: 60.0 % residue", "63 µm: 30.0 % residue"]);
        surface.Markers.Skip(1).ShouldAllBe(marker => surface.Frame.Contains(marker.Centre));
    }

    [Fact]
    public void Slope_and_position_stand_in_the_legend()
    {
        var drawn = Draw(new RosinRammlerNet { Title = "Net", Points = Examples.Points, Line = new RosinRammlerLine(48.63, 1.547) });
        drawn.Texts.ShouldContain(text => text.Text == "x′ = 48.63 µm, n = 1.547");
        drawn.Texts.ShouldContain(text => text.Text == "36.8");
    }

    [Fact]
    public void A_net_without_points_still_has_its_scales() =>
        Draw(new RosinRammlerNet { Title = "Net", Points = [] }).Texts.Count(text => text.Style.Anchor == PlotAnchor.End).ShouldBeGreaterThan(3);

    private static RecordingSurface Draw(RosinRammlerNet net)
    {
        var surface = new RecordingSurface();
        new RosinRammlerNetPlot(net).Draw(surface, PlotLayout.Page);
        return surface;
    }
}
