using ParticleLims.Pictures.Drawing;
using ParticleLims.Pictures.Plots;
using Shouldly;
using Xunit;

namespace ParticleLims.Pictures.Tests.Plots;

public sealed class BudgetBarsPlotTests
{
    private static readonly Budget _three = new() { Title = "Budget", Entries = [new("balance", 10), new("aperture", 60), new("portion", 30)], Total = "u(D50) = 0.31 µm" };

    [Fact]
    public void The_largest_share_comes_first_and_a_bar_is_as_long_as_its_share()
    {
        var drawn = Draw(_three, PlotLayout.Page);
        drawn.Readings.ShouldBe(["aperture: 60.0 %", "portion: 30.0 %", "balance: 10.0 %"]);
        var lengths = drawn.Shapes.Select(shape => shape.Outline.Max(corner => corner.X) - shape.Outline.Min(corner => corner.X)).ToList();
        (lengths[0] / lengths[2]).ShouldBe(6, 1e-9);
        (lengths[1] / lengths[2]).ShouldBe(3, 1e-9);
    }

    [Fact]
    public void The_total_stands_below_them()
    {
        Draw(_three, PlotLayout.Narrow).Texts[^1].Text.ShouldBe("Total 100.0 % of u², u(D50) = 0.31 µm");
        new BudgetBarsPlot(_three).Description.ShouldBe(
            "Share of each input in the squared uncertainty, largest first. aperture: 60.0 %; portion: 30.0 %; balance: 10.0 %. Total 100.0 % of u², u(D50) = 0.31 µm.");
        Draw(_three with { Entries = [], Total = string.Empty }, PlotLayout.Narrow).Texts.Single().Text.ShouldBe("Total 0.0 % of u²");
    }

    [Fact]
    public void A_correlation_that_takes_away_goes_to_the_other_side_and_says_so()
    {
        var drawn = Draw(_three with { Entries = [new("aperture", 110), new("correlation", -10)] }, PlotLayout.Page);
        drawn.Shapes[0].Outline.Min(corner => corner.X).ShouldBe(drawn.Shapes[1].Outline.Max(corner => corner.X), 1e-9);
        drawn.Texts.ShouldContain(text => text.Text == "-10.0 %");
        drawn.Shapes[1].Ink.ShouldNotBe(drawn.Shapes[0].Ink);
    }

    [Fact]
    public void Too_many_inputs_for_the_room_are_put_together_and_nothing_is_lost()
    {
        var many = _three with { Entries = [.. Enumerable.Range(1, 40).Select(i => new BudgetEntry($"input {i}", 2.5))] };
        var drawn = Draw(many, PlotLayout.Narrow);
        drawn.Readings[^1].ShouldMatch("^[0-9]+ further inputs: [0-9.]+ %$");
        drawn.Readings.Sum(reading => double.Parse(reading.Split(": ")[1].Split(' ')[0], System.Globalization.CultureInfo.InvariantCulture)).ShouldBe(100, 1e-9);
        new BudgetBarsPlot(many).Numbers.Rows.Count.ShouldBe(40);
    }

    [Fact]
    public void Words_too_long_for_the_room_end_in_an_ellipsis_and_are_read_whole()
    {
        var label = "the aperture of the finest sieve by its certificate, " + new string('x', 80);
        var drawn = Draw(_three with { Entries = [new(label, 100)] }, PlotLayout.Narrow);
        drawn.Texts[0].Text.ShouldEndWith("…");
        drawn.Readings.ShouldBe([$"{label}: 100.0 %"]);
    }

    [Fact]
    public void The_table_tells_uncertainty_and_sensitivity_where_they_are_known()
    {
        var table = new BudgetBarsPlot(_three with { Entries = [new("balance", 40, "0.0010 g", "−1.2 µm/g"), new("portion", 60)] }).Numbers;
        table.Columns.ShouldBe(["input", "standard uncertainty", "sensitivity", "share of u² in %"]);
        table.Rows[1].ShouldBe(["balance", "0.0010 g", "−1.2 µm/g", "40"]);
        new BudgetBarsPlot(_three).Numbers.Columns.Count.ShouldBe(2);
    }

    private static RecordingSurface Draw(Budget budget, PlotLayout layout)
    {
        var surface = new RecordingSurface();
        new BudgetBarsPlot(budget).Draw(surface, layout);
        return surface;
    }
}
