using CsCheck;
using ParticleLims.Analysis.ModelFits;
using ParticleLims.Pictures.Drawing;
using ParticleLims.Pictures.Plots;
using Shouldly;
using Xunit;

namespace ParticleLims.Pictures.Tests.Plots;

public sealed class DistributionCurvePlotTests
{
    private const double Tolerance = 1e-6;

    [Fact]
    public void Any_measured_points_stand_inside_the_frame()
    {
        var point = Gen.Select(Gen.Double[0.5, 50_000], Gen.Double[-5, 105], Gen.Double[0, 30]).Select((x, q, u) => new CurvePoint(x, q, u));
        point.Array[0, 12].Sample(points =>
        {
            var drawn = Draw(Examples.Of(points), PlotLayout.Narrow);
            var frame = Grown(drawn.Frame);
            drawn.Markers.Skip(1).ShouldAllBe(marker => frame.Contains(marker.Centre));
            drawn.Readings.Count.ShouldBe(points.Length);
            drawn.Lines.Where(line => line.Pen.Ink == PlotInk.Curve).Skip(1).ShouldAllBe(bar => frame.Contains(new PlotPoint(bar.From.X, bar.From.Y)));
        });
    }

    [Fact]
    public void Everything_lies_on_the_drawing_whatever_the_size()
    {
        foreach (var layout in new[] { PlotLayout.Page, PlotLayout.Narrow, new PlotLayout(515, 240, 7.5) })
        {
            var drawn = Draw(Examples.Full, layout);
            var whole = new PlotArea(0, 0, layout.Width, layout.Height);
            drawn.Texts.ShouldAllBe(text => whole.Contains(text.At));
            drawn.Markers.ShouldAllBe(marker => whole.Contains(marker.Centre));
            drawn.Lines.ShouldAllBe(line => whole.Contains(line.From) && whole.Contains(line.To));
        }
    }

    [Fact]
    public void A_place_halfway_in_ln_x_between_two_apertures_is_halfway_on_the_paper()
    {
        var drawn = Draw(Examples.Of(new CurvePoint(25, 0), new CurvePoint(50, 50), new CurvePoint(100, 100)), PlotLayout.Page);
        var line = drawn.Polylines.Single(line => line.Pen.Ink == PlotInk.Curve).Points;
        line[1].X.ShouldBe((line[0].X + line[2].X) / 2, Tolerance);
        line[1].Y.ShouldBe((line[0].Y + line[2].Y) / 2, Tolerance);
        line[0].Y.ShouldBe(drawn.Frame.Bottom, Tolerance);
        line[2].Y.ShouldBe(drawn.Frame.Top, Tolerance);
    }

    [Fact]
    public void Points_given_in_any_order_are_joined_by_rising_aperture()
    {
        var shuffled = Draw(Examples.Of([.. Examples.Points.Reverse()]), PlotLayout.Page);
        var line = shuffled.Polylines.Single().Points;
        line.Select(point => point.X).ShouldBeInOrder(SortDirection.Ascending);
        line.Count.ShouldBe(Examples.Points.Count);
    }

    [Fact]
    public void A_point_reads_its_aperture_passing_and_expanded_uncertainty()
    {
        Draw(Examples.Full, PlotLayout.Page).Readings[0].ShouldBe("20 µm: 18.42 % passing, ± 0.42 % (k = 2)");
        Draw(Examples.Of(new CurvePoint(63, 97.0)), PlotLayout.Page).Readings.ShouldBe(["63 µm: 97.0 % passing"]);
    }

    [Fact]
    public void A_bar_reaches_the_coverage_factor_times_the_standard_uncertainty_to_both_sides()
    {
        var drawn = Draw(Examples.Of(new CurvePoint(40, 50, 10)) with { CoverageFactor = 3 }, PlotLayout.Page);
        var bar = drawn.Lines.Single(line => line.Pen.Ink == PlotInk.Curve && line.From.X == line.To.X);
        Math.Abs(bar.From.Y - bar.To.Y).ShouldBe(drawn.Frame.Height * 0.6, Tolerance);
    }

    [Fact]
    public void A_gate_at_an_aperture_leaves_its_window_open()
    {
        var curve = Examples.Of(new CurvePoint(20, 10), new CurvePoint(200, 90)) with { Gates = [CurveGate.AtAperture("40 to 60 %", 63, 40, 60)] };
        var drawn = Draw(curve, PlotLayout.Page);
        var (low, high) = (drawn.Frame.Bottom - (0.4 * drawn.Frame.Height), drawn.Frame.Bottom - (0.6 * drawn.Frame.Height));
        drawn.Shapes.Count(shape => shape.Ink == PlotInk.Gate).ShouldBe(4);
        drawn.Shapes.ShouldAllBe(shape => shape.Outline.All(corner => corner.Y >= low - Tolerance || corner.Y <= high + Tolerance));
        drawn.Names.ShouldContain("Limit for the passing at 63 µm: 40.0 % to 60.0 %");
    }

    [Fact]
    public void A_gate_at_a_percentage_leaves_its_window_open()
    {
        var curve = Examples.Of(new CurvePoint(20, 10), new CurvePoint(200, 90)) with { Gates = [CurveGate.AtPassing("D50 ≤ 63 µm", 50, null, 63)] };
        var drawn = Draw(curve, PlotLayout.Page);
        var middle = drawn.Frame.Left + (drawn.Frame.Width / 2);
        drawn.Shapes.Count.ShouldBe(2);
        drawn.Shapes.ShouldAllBe(shape => shape.Outline.Min(corner => corner.X) > middle - 10);
        drawn.Names.ShouldContain("Limit for the size at 50.0 % passing: at most 63 µm");
    }

    [Fact]
    public void Labels_of_gates_and_sizes_do_not_cover_each_other()
    {
        var drawn = Draw(Examples.Full, PlotLayout.Page);
        var labels = drawn.Texts.Where(text => text.Text.Contains("µm", StringComparison.Ordinal) && drawn.Frame.Contains(text.At)).ToList();
        labels.Count.ShouldBe(6);
        for (var i = 0; i < labels.Count; i++)
        {
            labels.Skip(i + 1).ShouldAllBe(other => Math.Abs(other.At.Y - labels[i].At.Y) > 10 || Math.Abs(other.At.X - labels[i].At.X) > 60);
        }
    }

    [Fact]
    public void A_narrow_picture_says_less_in_relatively_larger_letters()
    {
        var (wide, narrow) = (Draw(Examples.Full, PlotLayout.Page), Draw(Examples.Full, PlotLayout.Narrow));
        narrow.Texts.Count.ShouldBeLessThan(wide.Texts.Count);
        narrow.Readings.ShouldBe(wide.Readings);
        (PlotLayout.Narrow.TextSize / PlotLayout.Narrow.Width).ShouldBeGreaterThan(PlotLayout.Page.TextSize / PlotLayout.Page.Width);
        PlotLayout.Narrow.TextSize.ShouldBeGreaterThanOrEqualTo(12);
    }

    [Fact]
    public void Lines_and_signs_differ_without_colour()
    {
        var drawn = Draw(Examples.Full, PlotLayout.Page);
        drawn.Polylines.Single(line => line.Pen.Ink == PlotInk.Model).Pen.Dash.ShouldBe(PlotDash.Dashed);
        drawn.Polylines.Single(line => line.Pen.Ink == PlotInk.Curve).Pen.Dash.ShouldBe(PlotDash.Solid);
        drawn.Markers.Where(marker => marker.Ink == PlotInk.Percentile).ShouldAllBe(marker => marker.Marker == PlotMarker.Diamond);
        drawn.Markers.Where(marker => marker.Ink == PlotInk.Curve).ShouldAllBe(marker => marker.Marker == PlotMarker.Disc);
    }

    [Fact]
    public void The_description_tells_every_number()
    {
        var words = new DistributionCurvePlot(Examples.Full).Description;
        words.ShouldContain("125 µm: 99.62 % passing");
        words.ShouldContain("Limit for the size at 90.0 % passing: at most 95 µm");
        words.ShouldContain("D50 39.2 µm: 50.0 % passing at 39.2 µm");
        words.ShouldContain("x′ = 48.6 µm, n = 1.55");
        words.ShouldContain("R-26-00811");
        new DistributionCurvePlot(Examples.Of()).Description.ShouldContain("no point measured yet");
    }

    [Fact]
    public void The_fitted_line_passes_63_point_2_percent_at_its_size()
    {
        // 100 (1 - 1/e) = 63.212 055 882 855 767 840 448; e from its series, 1/e = 0.367 879 441 171 442 321 595 5.
        new FittedLine(Model.RosinRammler, 48.6, 1.55).PassingPercent(48.6).ShouldBe(63.21205588285577, 1e-12);
    }

    [Fact]
    public void Each_model_is_drawn_through_its_own_percentages()
    {
        // Published values, as the engine's tests have them: half lies below the median of a log-normal distribution; (1/2)^2 = 25 % below half of the top size of a
        // Gates-Gaudin-Schuhmann line of slope 2.
        new FittedLine(Model.LogNormal, 40, 1.3).PassingPercent(40).ShouldBe(50, 1e-12);
        new FittedLine(Model.GatesGaudinSchuhmann, 100, 2).PassingPercent(50).ShouldBe(25, 1e-12);
        foreach (var model in Enum.GetValues<Model>())
        {
            var line = new FittedLine(model, 48, 1.5);
            var drawn = Draw(Examples.Of(new CurvePoint(20, 10), new CurvePoint(125, 90)) with { Model = line }, PlotLayout.Page);
            drawn.Texts.ShouldContain(text => text.Text == line.Name);
            var across = drawn.Polylines.Single(one => one.Pen.Ink == PlotInk.Model).Points;
            across.Select(point => -point.Y).ShouldBeInOrder(SortDirection.Ascending);
            across[0].Y.ShouldBe(drawn.Frame.Bottom - (drawn.Frame.Height * line.PassingPercent(20 / 1.22) / 100), 1e-6);
        }
    }

    [Fact]
    public void A_level_bar_shows_the_uncertainty_of_the_aperture()
    {
        var drawn = Draw(Examples.Of(new CurvePoint(40, 50, null, 5)), PlotLayout.Page);
        var bar = drawn.Lines.Single(line => line.Pen.Ink == PlotInk.Curve && line.From.Y == line.To.Y && drawn.Frame.Contains(line.From));
        bar.From.X.ShouldBeLessThan(drawn.Markers[^1].Centre.X);
        drawn.Readings.ShouldBe(["40 µm ± 10 µm: 50.0 % passing"]);

        // On a scale of logarithms 30 to 40 µm is longer than 40 to 50 µm: ln(40/30) / ln(50/40) = 1.2892.
        ((drawn.Markers[^1].Centre.X - bar.From.X) / (bar.To.X - drawn.Markers[^1].Centre.X)).ShouldBe(1.2892, 1e-4);
    }

    [Fact]
    public void An_uncertainty_wider_than_the_aperture_ends_at_the_frame()
    {
        var drawn = Draw(Examples.Of(new CurvePoint(40, 50, null, 500)), PlotLayout.Page);
        drawn.Lines.Where(line => line.Pen.Ink == PlotInk.Curve).Skip(1).ShouldAllBe(line => Grown(drawn.Frame).Contains(line.From) && Grown(drawn.Frame).Contains(line.To));
    }

    [Fact]
    public void A_size_is_marked_with_its_interval()
    {
        var drawn = Draw(Examples.Of(new CurvePoint(20, 10), new CurvePoint(125, 90)) with { Percentiles = [new("D50", 50, 40, new SizeInterval(38, 42, "95 %"))] }, PlotLayout.Page);
        drawn.Names.ShouldContain("D50: 50.0 % passing at 40 µm (95 % interval: 38 µm to 42 µm)");
        var bar = drawn.Lines.Single(line => line.Pen.Ink == PlotInk.Percentile && line.From.Y == line.To.Y && line.Pen.Dash == PlotDash.Solid);
        bar.From.X.ShouldBeLessThan(bar.To.X);
    }

    [Fact]
    public void The_curve_between_the_points_is_drawn_where_it_is_not_straight()
    {
        var curve = Examples.Of(new CurvePoint(25, 0), new CurvePoint(100, 100)) with { Between = [new(25, 0), new(50, 30), new(100, 100)] };
        var drawn = Draw(curve, PlotLayout.Page);
        drawn.Polylines.Single(line => line.Pen.Ink == PlotInk.Curve).Points[1].Y.ShouldBe(drawn.Frame.Bottom - (drawn.Frame.Height * 0.3), Tolerance);
        drawn.Readings.Count.ShouldBe(2);
    }

    [Theory]
    [InlineData(0, 50)]
    [InlineData(-63, 50)]
    [InlineData(double.NaN, 50)]
    [InlineData(63, double.NaN)]
    [InlineData(63, double.PositiveInfinity)]
    public void A_number_without_a_place_is_refused(double aperture, double passing) =>
        Should.Throw<ArgumentOutOfRangeException>(() => new DistributionCurvePlot(Examples.Of(new CurvePoint(aperture, passing))));

    [Fact]
    public void A_gate_with_no_bound_or_two_places_is_refused()
    {
        Should.Throw<ArgumentException>(() => Plot(new CurveGate("nowhere", null, null, 1, 2)));
        Should.Throw<ArgumentException>(() => Plot(new CurveGate("both", 63, 50, 1, 2)));
        Should.Throw<ArgumentException>(() => Plot(CurveGate.AtAperture("open", 63, null, null)));
        Should.Throw<ArgumentOutOfRangeException>(() => Plot(CurveGate.AtAperture("too much", 63, 101, null)));
        Should.Throw<ArgumentOutOfRangeException>(() => Plot(CurveGate.AtPassing("no size", 50, 0, null)));

        static DistributionCurvePlot Plot(CurveGate gate) => new(Examples.Of() with { Gates = [gate] });
    }

    private static RecordingSurface Draw(DistributionCurve curve, PlotLayout layout)
    {
        var surface = new RecordingSurface();
        new DistributionCurvePlot(curve).Draw(surface, layout);
        return surface;
    }

    private static PlotArea Grown(PlotArea area) => new(area.Left - Tolerance, area.Top - Tolerance, area.Width + (2 * Tolerance), area.Height + (2 * Tolerance));
}
