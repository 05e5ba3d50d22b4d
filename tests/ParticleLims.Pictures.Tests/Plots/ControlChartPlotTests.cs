using ParticleLims.Pictures.Drawing;
using ParticleLims.Pictures.Plots;
using Shouldly;
using Xunit;

namespace ParticleLims.Pictures.Tests.Plots;

public sealed class ControlChartPlotTests
{
    private static readonly DateTimeOffset _start = new(2026, 1, 5, 8, 0, 0, TimeSpan.Zero);

    [Fact]
    public void Distances_follow_the_time_where_every_point_has_one()
    {
        var places = Draw(Tares(0, 1, 10)).Polylines.Single().Points;
        ((places[1].X - places[0].X) / (places[2].X - places[0].X)).ShouldBe(0.1, 1e-9);
    }

    [Fact]
    public void Points_without_times_stand_at_even_distances()
    {
        var series = Tares(0, 1, 10);
        var places = Draw(series with { Points = [.. series.Points.Select(point => point with { At = null })] }).Polylines.Single().Points;
        ((places[1].X - places[0].X) / (places[2].X - places[0].X)).ShouldBe(0.5, 1e-9);
    }

    [Fact]
    public void A_point_that_needs_eyes_is_a_triangle_and_says_so()
    {
        var drawn = Draw(Tares(0, 1, 2) with { Points = [new("U1", 412.31), new("U2", 412.335, Signal: "beyond the limit")] });
        drawn.Readings.ShouldBe(["U1: 412.310", "U2: 412.335, needs eyes: beyond the limit"]);
        drawn.Markers[^1].Marker.ShouldBe(PlotMarker.Triangle);
        drawn.Texts.ShouldContain(text => text.Text == "needs eyes");
    }

    [Fact]
    public void Limits_and_points_lie_inside_the_frame()
    {
        var drawn = Draw(Tares(0, 3, 4, 9) with
        {
            Lines = [ControlLine.Level("lower limit", ControlLineKind.Limit, 412.0), ControlLine.Level("upper limit", ControlLineKind.Limit, 413.0), ControlLine.Level("commissioned at", ControlLineKind.Centre, 412.4)],
        });
        drawn.Markers.ShouldAllBe(marker => drawn.Frame.Contains(marker.Centre));
        var bounds = drawn.Polylines.Where(line => line.Pen.Ink == PlotInk.Gate).ToList();
        bounds.Count.ShouldBe(2);
        bounds.ShouldAllBe(line => line.Points.Min(point => point.X) == drawn.Frame.Left && line.Points.Max(point => point.X) == drawn.Frame.Right);
        bounds.ShouldAllBe(line => line.Points[0].Y > drawn.Frame.Top && line.Points[0].Y < drawn.Frame.Bottom);
        drawn.Names.ShouldBe(["lower limit: 412.000", "upper limit: 413.000", "commissioned at: 412.400"]);
    }

    [Fact]
    public void One_value_or_none_can_be_drawn()
    {
        Draw(Tares(0)).Readings.Count.ShouldBe(1);
        Draw(Tares()).Readings.ShouldBeEmpty();
        new ControlChartPlot(Tares()).Description.ShouldContain("No value yet.");
    }

    [Fact]
    public void Values_that_are_no_numbers_are_refused()
    {
        Should.Throw<ArgumentOutOfRangeException>(() => new ControlChartPlot(Tares(0) with { Points = [new("U1", double.NaN)] }));
        Should.Throw<ArgumentOutOfRangeException>(() => new ControlChartPlot(Tares(0) with { Decimals = 10 }));
    }

    [Fact]
    public void Limits_that_change_are_drawn_as_stairs_between_the_points()
    {
        var drawn = Draw(Tares(0, 1, 2) with { Lines = [new("upper limit", ControlLineKind.Warning, [412.4, 412.4, 412.5])] });
        var stairs = drawn.Polylines.Single(line => line.Pen.Ink == PlotInk.Gate);
        var places = drawn.Polylines.Single(line => line.Pen.Ink == PlotInk.Curve).Points;
        stairs.Pen.Dash.ShouldBe(PlotDash.Dotted);
        stairs.Points.Count.ShouldBe(6);
        stairs.Points[4].X.ShouldBe((places[1].X + places[2].X) / 2, 1e-9);
        stairs.Points[3].X.ShouldBe(stairs.Points[4].X, 1e-9);
        stairs.Points[4].Y.ShouldBeLessThan(stairs.Points[3].Y);
        Should.Throw<ArgumentException>(() => new ControlChartPlot(Tares(0, 1, 2) with { Lines = [new("upper limit", ControlLineKind.Limit, [1, 2])] }));
    }

    [Fact]
    public void A_step_is_told_beside_its_line_and_individuals_lie_faintly_behind()
    {
        var chart = Tares(0, 1, 2, 3) with { Behind = new("individuals", [412.3, 412.2, 412.4, 412.1]) };
        var drawn = Draw(chart with { Points = [.. chart.Points.Select((point, i) => i == 2 ? point with { Step = "new sieve" } : point)] });
        drawn.Names.ShouldContain("Before day 2: new sieve");
        drawn.Texts.ShouldContain(text => text.Text == "new sieve");
        drawn.Polylines.Select(line => (line.Pen.Ink, line.Pen.Dash)).ShouldBe([(PlotInk.Replicate, PlotDash.Dashed), (PlotInk.Curve, PlotDash.Solid)]);
    }

    private static ControlChart Tares(params int[] days) => new()
    {
        Title = "Empty mass of TS-063-02",
        ValueName = "Empty mass, g",
        OrderName = "Use",
        Points = [.. days.Select(day => new ControlPoint($"day {day}", 412.31 - (day * 0.001), At: _start.AddDays(day)))],
    };

    private static RecordingSurface Draw(ControlChart series)
    {
        var surface = new RecordingSurface();
        new ControlChartPlot(series).Draw(surface, PlotLayout.Page);
        return surface;
    }
}
