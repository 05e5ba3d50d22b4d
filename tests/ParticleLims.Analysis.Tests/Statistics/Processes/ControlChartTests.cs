using System.Globalization;
using ParticleLims.Analysis.Statistics.Processes;
using ParticleLims.Analysis.Tests.ReferenceData;

namespace ParticleLims.Analysis.Tests.Statistics.Processes;

/// <summary>The examples of NIST/SEMATECH e-Handbook 6.3.2.2 and 6.3.2.4, as publicly quoted (spc_examples.csv).</summary>
public sealed class ControlChartTests
{
    [Fact]
    public void The_individuals_chart_of_the_handbook_is_met()
    {
        var chart = IndividualsChart.From(Values("NIST_6322_IMR", "data"));
        Math.Round(chart.Values.Centre, 2).ShouldBe(Published("NIST_6322_IMR", "mean"));
        Math.Round(chart.Ranges.Centre, 4).ShouldBe(Published("NIST_6322_IMR", "MRbar"));
        Math.Round(chart.Values.Upper, 4).ShouldBe(Published("NIST_6322_IMR", "UCL_X"));
        Math.Round(chart.Values.Lower, 4).ShouldBe(Published("NIST_6322_IMR", "LCL_X"));
        chart.Ranges.Upper.ShouldBe(6.1347, 5e-5, "the quoted 6.1349 is a slip: 3.267 times 1.8778");
        chart.Outside(Values("NIST_6322_IMR", "data")).ShouldBeEmpty();
    }

    [Fact]
    public void A_leap_breaks_the_limit_of_the_ranges_and_a_far_value_that_of_the_values()
    {
        var chart = IndividualsChart.From(Values("NIST_6322_IMR", "data"));
        chart.Outside([50, 51, 56, 44]).ShouldBe([2, 3]);
        chart.RangesOutside([50, 51, 57.5, 57, 50]).ShouldBe([2, 4]);
    }

    [Fact]
    public void The_moving_averages_of_the_handbook_are_met()
    {
        var chart = EwmaChart.Of(Values("NIST_6324_EWMA", "data/ewma"), 50, 2.0539, 0.3, 3, settled: true);
        var rows = ReferenceFile.Rows("spc_examples.csv").Where(row => row["example"] == "NIST_6324_EWMA" && row["quantity"] == "data/ewma").ToList();
        for (var i = 0; i < rows.Count; i++)
        {
            chart.Averages[i].ShouldBe((double)rows[i].Number("computed"), 5.1e-7);
            chart.Averages[i].ShouldBe((double)rows[i].Number("published"), 0.0051);
        }

        Math.Round(chart.Limits[0].Upper, 4).ShouldBe(52.5884);
        Math.Round(chart.Limits[0].Lower, 4).ShouldBe(47.4116, "printed 47.4115, cut and not rounded");
        chart.Outside.ShouldBeEmpty();
    }

    [Fact]
    public void The_limits_of_a_moving_average_open_to_those_of_a_long_series()
    {
        var chart = EwmaChart.Of(Enumerable.Repeat(0.0, 200).ToList(), 0, 1);
        chart.Limits[0].Upper.ShouldBe(3 * 0.2, 1e-12);
        chart.Limits[199].Upper.ShouldBe(3 * Math.Sqrt(0.2 / 1.8), 1e-12);
        chart.Limits.Select(limits => limits.Upper).ShouldBe(chart.Limits.Select(limits => limits.Upper).Order());
    }

    [Fact]
    public void A_weight_of_one_is_the_chart_of_single_values()
    {
        var chart = EwmaChart.Of([1, 4, -2], 0, 1, 1);
        chart.Averages.ShouldBe([1, 4, -2]);
        chart.Outside.ShouldBe([1]);
    }

    [Fact]
    public void A_shift_and_a_scale_move_the_chart_along()
    {
        double[] values = [1, 4, -2, 3, 5, 8];
        var moved = values.Select(value => (value * 10) + 100).ToArray();
        var (plain, other) = (EwmaChart.Of(values, 1, 2), EwmaChart.Of(moved, 110, 20));
        other.Outside.ShouldBe(plain.Outside);
        other.Averages[5].ShouldBe((plain.Averages[5] * 10) + 100, 1e-12);
        IndividualsChart.From(moved).Sigma.ShouldBe(10 * IndividualsChart.From(values).Sigma, 1e-12);
    }

    [Fact]
    public void Numbers_out_of_range_are_refused()
    {
        Should.Throw<ArgumentException>(() => IndividualsChart.From([1]));
        Should.Throw<ArgumentOutOfRangeException>(() => EwmaChart.Of([1], 0, 0));
        Should.Throw<ArgumentOutOfRangeException>(() => EwmaChart.Of([1], 0, 1, 1.1));
        Should.Throw<ArgumentOutOfRangeException>(() => CusumChart.Of([1], 0, 1, 0.5, -1));
    }

    private static List<double> Values(string example, string quantity) => ReferenceFile.Rows("spc_examples.csv")
        .Where(row => row["example"] == example && row["quantity"] == quantity).Select(row => (double)row.Number("x")).ToList();

    private static double Published(string example, string quantity) => double.Parse(
        ReferenceFile.Rows("spc_examples.csv").Single(row => row["example"] == example && row["quantity"] == quantity)["published"], CultureInfo.InvariantCulture);
}
