using ParticleLims.Pictures.Drawing;
using ParticleLims.Pictures.Plots;
using Shouldly;
using Xunit;

namespace ParticleLims.Pictures.Tests.Plots;

public sealed class HistogramPlotTests
{
    private static readonly Histogram _shares = new() { Title = "Shares", Classes = [new(80, null, 5), new(20, 40, 60), new(null, 20, 5), new(40, 80, 30)] };

    [Fact]
    public void A_bar_is_as_high_as_its_share_and_as_wide_as_the_logarithm_of_its_class()
    {
        var bars = Draw(_shares).Shapes;
        bars.Count.ShouldBe(2);
        (Height(bars[0].Outline) / Height(bars[1].Outline)).ShouldBe(2, 1e-9);
        Width(bars[0].Outline).ShouldBe(Width(bars[1].Outline), 1e-9);
    }

    [Fact]
    public void The_density_makes_the_area_the_share()
    {
        // 30 % between 20 and 40 µm: q3*(ln x) = 0.3 / ln 2 = 0.4328 (docs/science/density.md).
        new HistogramClass(20, 40, 30).LogarithmicDensity.ShouldNotBeNull().ShouldBe(0.4328, 5e-5);
        var bars = Draw(_shares with { IsDensity = true, Classes = [new(20, 40, 30), new(40, 160, 30)] }).Shapes;
        (Height(bars[0].Outline) / Height(bars[1].Outline)).ShouldBe(2, 1e-9);
    }

    [Fact]
    public void Open_ends_are_told_in_words_and_not_drawn()
    {
        var drawn = Draw(_shares);
        drawn.Texts.ShouldContain(text => text.Text == "below 20 µm, not drawn: 5.0 %");
        drawn.Texts.ShouldContain(text => text.Text == "above 80 µm, not drawn: 5.0 %");
        drawn.Readings.ShouldBe(["20 µm to 40 µm: 60.0 %", "40 µm to 80 µm: 30.0 %"]);
        new HistogramPlot(_shares).Description.ShouldBe("Share of the mass in percent by class of size. below 20 µm: 5.0 %; 20 µm to 40 µm: 60.0 %; 40 µm to 80 µm: 30.0 %; above 80 µm: 5.0 %.");
    }

    [Fact]
    public void Only_open_ends_leave_an_empty_frame()
    {
        var drawn = Draw(new Histogram { Title = "Open", Classes = [new(null, 63, 40), new(63, null, 60)] });
        drawn.Shapes.ShouldBeEmpty();
        drawn.Texts.Count(text => text.Text.Contains("not drawn", StringComparison.Ordinal)).ShouldBe(2);
    }

    [Fact]
    public void A_class_without_bounds_or_without_width_is_refused()
    {
        Should.Throw<ArgumentException>(() => Draw(_shares with { Classes = [new(null, null, 1)] }));
        Should.Throw<ArgumentException>(() => Draw(_shares with { Classes = [new(20, 20, 1)] }));
        Should.Throw<ArgumentOutOfRangeException>(() => Draw(_shares with { Classes = [new(20, 40, -1)] }));
        Should.Throw<ArgumentOutOfRangeException>(() => Draw(_shares with { Classes = [new(0, 40, 1)] }));
    }

    private static double Height(IReadOnlyList<PlotPoint> outline) => outline.Max(corner => corner.Y) - outline.Min(corner => corner.Y);

    private static double Width(IReadOnlyList<PlotPoint> outline) => outline.Max(corner => corner.X) - outline.Min(corner => corner.X);

    private static RecordingSurface Draw(Histogram histogram)
    {
        var surface = new RecordingSurface();
        new HistogramPlot(histogram).Draw(surface, PlotLayout.Page);
        return surface;
    }
}
