using ParticleLims.Analysis.Statistics.Processes;

namespace ParticleLims.Analysis.Tests.Statistics.Processes;

public sealed class CusumChartTests
{
    /// <summary>Montgomery, Introduction to Statistical Quality Control, table 9.1 (target 10, σ 1, k 0.5, h 5), from memory.</summary>
    private static readonly double[] Montgomery =
    [
        9.45, 7.99, 9.29, 11.66, 12.16, 10.18, 8.04, 11.46, 9.20, 10.34, 9.03, 11.47, 10.51, 9.40, 10.08, 9.37, 10.62, 10.31, 8.52, 10.84, 10.90, 9.33, 12.29, 11.50, 10.60, 11.08, 10.38,
        11.62, 11.31, 10.52,
    ];

    /// <summary>Published: C⁺ passes 5 at the 29th value with 5.28, seven values after it left zero; the estimate of the new mean is 10 + 0.5 + 5.28/7 = 11.25.</summary>
    [Fact]
    public void The_textbooks_example_signals_at_the_twenty_ninth_value()
    {
        var chart = CusumChart.Of(Montgomery, 10, 1);
        var first = chart.Signals[0];
        first.Index.ShouldBe(28);
        first.IsUpward.ShouldBeTrue();
        first.FirstIndex.ShouldBe(22);
        Math.Round(chart.High[28], 2).ShouldBe(5.28);
        Math.Round(first.EstimatedMean, 2).ShouldBe(11.25);
        chart.Low.Max().ShouldBeLessThan(5);
    }

    /// <summary>
    /// Average run lengths of the two-sided sum with k = 0.5: h = 4 gives 168 without a shift and 8.38 at one σ, h = 5 gives 465 and 10.4 (Montgomery, table 9.3, from memory). Simulated with 2 000 series
    /// each, standard error about 2 %.
    /// </summary>
    [Theory]
    [InlineData(4, 0, 168)]
    [InlineData(4, 1, 8.38)]
    [InlineData(5, 0, 465)]
    [InlineData(5, 1, 10.4)]
    public void The_average_run_length_is_the_published_one(double decision, double shift, double expected)
    {
        var random = new Normals(42);
        double sum = 0;
        const int Series = 2_000;
        for (var i = 0; i < Series; i++)
        {
            var values = Enumerable.Range(0, shift > 0 ? 200 : 4_000).Select(_ => random.Next() + shift).ToList();
            sum += CusumChart.Of(values, 0, 1, 0.5, decision).Signals.FirstOrDefault()?.Index + 1 ?? values.Count;
        }

        (sum / Series).ShouldBe(expected, expected * 0.09);
    }

    [Fact]
    public void Values_turned_about_the_target_change_sides()
    {
        var (plain, turned) = (CusumChart.Of(Montgomery, 10, 1), CusumChart.Of(Montgomery.Select(value => 20 - value).ToList(), 10, 1));
        for (var i = 0; i < Montgomery.Length; i++)
        {
            turned.Low[i].ShouldBe(plain.High[i], 1e-12);
        }

        turned.Signals[0].IsUpward.ShouldBeFalse();
        turned.Signals[0].EstimatedMean.ShouldBe(20 - plain.Signals[0].EstimatedMean, 1e-12);
    }
}
