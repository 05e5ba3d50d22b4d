using CsCheck;
using ParticleLims.Analysis.ModelFits;
using ParticleLims.Pictures.Drawing;
using ParticleLims.Pictures.Plots;
using Shouldly;
using Xunit;

namespace ParticleLims.Pictures.Tests.Plots;

public sealed class NetPlotTests
{
    [Theory]
    [InlineData(Model.RosinRammler)]
    [InlineData(Model.LogNormal)]
    public void Points_of_the_nets_own_distribution_lie_on_its_straight_line(Model model)
    {
        Gen.Select(Gen.Double[5, 500], Gen.Double[0.6, 3]).Sample((size, slope) =>
        {
            var line = new FittedLine(model, size, slope);
            var points = new[] { 0.4, 0.7, 1.2 }.Select(share => new CurvePoint(size * share, line.PassingPercent(size * share))).ToList();
            var drawn = Draw(model, new Net { Title = "Net", Points = points, Lines = [new NetLine("line", line)] });
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
        var points = new[] { new CurvePoint(20, 0), new CurvePoint(45, 40), new CurvePoint(63, 70), new CurvePoint(90, 1e-20), new CurvePoint(250, 100) };
        var plot = NetPlot.RosinRammler(new Net { Title = "Net", Points = points });
        plot.Description.ShouldContain("3 points at 0 % or 100 % have no place in the net.");
        var surface = new RecordingSurface();
        plot.Draw(surface, PlotLayout.Page);
        surface.Readings.ShouldBe(["45 µm: 60.0 % residue", "63 µm: 30.0 % residue"]);
        surface.Markers.Skip(1).ShouldAllBe(marker => surface.Frame.Contains(marker.Centre));
    }

    [Fact]
    public void Slope_and_position_stand_in_the_legend()
    {
        var drawn = Draw(Model.RosinRammler, new Net { Title = "Net", Points = Examples.Points, Lines = [new("line", new FittedLine(Model.RosinRammler, 48.63, 1.547))] });
        drawn.Texts.ShouldContain(text => text.Text == "line: x′ = 48.63 µm, n = 1.547");
        drawn.Texts.ShouldContain(text => text.Text == "36.8");

        // GSD = exp(1/slope): exp(1/2) = 1.648 721 270 7...
        Draw(Model.LogNormal, new Net { Title = "Net", Points = Examples.Points, Lines = [new("line", new FittedLine(Model.LogNormal, 39, 2))] })
            .Texts.ShouldContain(text => text.Text == "line: x50 = 39 µm, GSD = 1.649");
    }

    [Fact]
    public void Two_fits_are_told_apart_without_colour()
    {
        var drawn = Draw(Model.LogNormal, new Net { Title = "Net", Points = Examples.Points, Lines = [new("line", new FittedLine(Model.LogNormal, 39, 1.5)), new("weighted", new FittedLine(Model.LogNormal, 41, 1.4))] });
        drawn.Lines.Where(line => line.From.X < line.To.X && line.From.Y > line.To.Y && line.Pen.Width > 1).Select(line => line.Pen.Dash).ShouldBe([PlotDash.Dotted, PlotDash.Dashed]);
    }

    [Fact]
    public void A_bar_shows_the_expanded_uncertainty_and_runs_to_the_edge_where_the_net_has_no_end()
    {
        var points = new[] { new CurvePoint(20, 1, 0.8), new CurvePoint(45, 50, 5), new CurvePoint(90, 95, 3) };
        foreach (var model in new[] { Model.RosinRammler, Model.LogNormal })
        {
            var drawn = Draw(model, new Net { Title = "Net", Points = points });
            var bars = drawn.Lines.Where(line => line.Pen.Ink == PlotInk.Curve).ToList();
            bars.Count.ShouldBe(3);
            bars[0].From.Y.ShouldBe(drawn.Frame.Bottom, 1e-9);
            bars[2].To.Y.ShouldBe(drawn.Frame.Top, 1e-9);
            bars[1].From.Y.ShouldBeGreaterThan(bars[1].To.Y);
            bars.ShouldAllBe(bar => bar.To.Y >= drawn.Frame.Top - 1e-9 && bar.From.Y <= drawn.Frame.Bottom + 1e-9);
        }
    }

    [Fact]
    public void A_position_far_from_every_point_does_not_press_the_points_together()
    {
        var drawn = Draw(Model.RosinRammler, new Net { Title = "Net", Points = Examples.Points, Lines = [new("line", new FittedLine(Model.RosinRammler, 5e6, 0.2))] });
        var places = drawn.Markers.Where(marker => marker.Ink == PlotInk.Curve).Skip(1).Select(marker => marker.Centre.X).ToList();
        (places[^1] - places[0]).ShouldBeGreaterThan(drawn.Frame.Width / 2);
    }

    [Fact]
    public void A_line_of_another_kind_has_no_place_in_a_net()
    {
        var net = new Net { Title = "Net", Points = [], Lines = [new("line", new FittedLine(Model.LogNormal, 40, 1))] };
        Should.Throw<ArgumentException>(() => NetPlot.RosinRammler(net));
        Should.Throw<ArgumentOutOfRangeException>(() => NetPlot.LogNormal(net with { Lines = [new("line", new FittedLine(Model.LogNormal, 40, 0))] }));
    }

    [Fact]
    public void A_net_without_points_still_has_its_scales() =>
        Draw(Model.RosinRammler, new Net { Title = "Net", Points = [] }).Texts.Count(text => text.Style.Anchor == PlotAnchor.End).ShouldBeGreaterThan(3);

    private static RecordingSurface Draw(Model model, Net net)
    {
        var surface = new RecordingSurface();
        (model == Model.LogNormal ? NetPlot.LogNormal(net) : NetPlot.RosinRammler(net)).Draw(surface, PlotLayout.Page);
        return surface;
    }
}
