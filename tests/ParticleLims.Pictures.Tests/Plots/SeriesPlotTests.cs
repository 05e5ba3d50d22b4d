using ParticleLims.Pictures.Drawing;
using ParticleLims.Pictures.Plots;
using Shouldly;
using Xunit;

namespace ParticleLims.Pictures.Tests.Plots;

public sealed class SeriesPlotTests
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
        var drawn = Draw(Tares(0, 1, 2) with { Points = [new("U1", 412.31), new("U2", 412.335, NeedsEyes: true)] });
        drawn.Readings.ShouldBe(["U1: 412.310", "U2: 412.335, needs eyes"]);
        drawn.Markers[^1].Marker.ShouldBe(PlotMarker.Triangle);
        drawn.Texts.ShouldContain(text => text.Text == "needs eyes");
    }

    [Fact]
    public void Limits_and_points_lie_inside_the_frame()
    {
        var drawn = Draw(Tares(0, 3, 4, 9) with { Limits = [new("lower limit", 412.0), new("upper limit", 413.0), new("commissioned at", 412.4, IsBound: false)] });
        drawn.Markers.ShouldAllBe(marker => drawn.Frame.Contains(marker.Centre));
        var bounds = drawn.Lines.Where(line => line.Pen.Ink == PlotInk.Gate && line.To.X - line.From.X >= drawn.Frame.Width).ToList();
        bounds.Count.ShouldBe(2);
        bounds.ShouldAllBe(line => line.From.Y > drawn.Frame.Top && line.From.Y < drawn.Frame.Bottom);
        drawn.Names.ShouldBe(["lower limit: 412.000", "upper limit: 413.000", "commissioned at: 412.400"]);
    }

    [Fact]
    public void One_value_or_none_can_be_drawn()
    {
        Draw(Tares(0)).Readings.Count.ShouldBe(1);
        Draw(Tares()).Readings.ShouldBeEmpty();
        new SeriesPlot(Tares()).Description.ShouldContain("No value yet.");
    }

    [Fact]
    public void Values_that_are_no_numbers_are_refused()
    {
        Should.Throw<ArgumentOutOfRangeException>(() => new SeriesPlot(Tares(0) with { Points = [new("U1", double.NaN)] }));
        Should.Throw<ArgumentOutOfRangeException>(() => new SeriesPlot(Tares(0) with { Decimals = 10 }));
    }

    private static Series Tares(params int[] days) => new()
    {
        Title = "Empty mass of TS-063-02",
        ValueName = "Empty mass, g",
        OrderName = "Use",
        Points = [.. days.Select(day => new SeriesPoint($"day {day}", 412.31 - (day * 0.001), At: _start.AddDays(day)))],
    };

    private static RecordingSurface Draw(Series series)
    {
        var surface = new RecordingSurface();
        new SeriesPlot(series).Draw(surface, PlotLayout.Page);
        return surface;
    }
}
