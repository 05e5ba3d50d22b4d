using CsCheck;
using ParticleLims.Analysis.Statistics.Summaries;
using ParticleLims.Analysis.Tests.ReferenceData;

namespace ParticleLims.Analysis.Tests.Statistics.Summaries;

/// <summary>Against the certified values of the NIST Statistical Reference Datasets, univariate (https://www.itl.nist.gov/div898/strd/).</summary>
public sealed class SampleSummaryTests
{
    private static readonly Gen<double[]> Values = Gen.Double[-1000, 1000].Array[2, 40];

    public static TheoryData<string> Datasets => [.. ReferenceFile.Rows("nist_strd_univariate_certified.csv").Select(row => row["dataset"])];

    /// <summary>All certified digits, fourteen and more: the values enter as decimal numbers.</summary>
    [Theory]
    [MemberData(nameof(Datasets))]
    public void Mean_deviation_and_autocorrelation_have_all_certified_digits(string dataset)
    {
        var certified = ReferenceFile.Rows("nist_strd_univariate_certified.csv").Single(row => row["dataset"] == dataset);
        var summary = SampleSummary.Of(Data(dataset));
        summary.Count.ShouldBe((int)certified.Number("n"));
        Digits.Agreeing(summary.Mean, (double)certified.Number("cert_mean")).ShouldBeGreaterThan(14);
        Digits.Agreeing(summary.StandardDeviation!.Value, (double)certified.Number("cert_sd")).ShouldBeGreaterThan(14);
        Digits.Agreeing(summary.LagOneCorrelation!.Value, (double)certified.Number("cert_r1")).ShouldBeGreaterThan(14);
    }

    /// <summary>What the rounding of the values to doubles leaves: NumAcc3 and NumAcc4 lie six and seven digits from zero with a scatter of 0.1.</summary>
    [Theory]
    [InlineData("Lottery", 14)]
    [InlineData("Lew", 14)]
    [InlineData("Mavro", 12.5)]
    [InlineData("Michelso", 13)]
    [InlineData("NumAcc1", 14)]
    [InlineData("NumAcc2", 14)]
    [InlineData("NumAcc3", 9)]
    [InlineData("NumAcc4", 8)]
    public void From_doubles_the_deviation_has_what_the_values_have(string dataset, double digits)
    {
        var certified = ReferenceFile.Rows("nist_strd_univariate_certified.csv").Single(row => row["dataset"] == dataset);
        var summary = SampleSummary.Of(Data(dataset).ConvertAll(value => (double)value));
        Digits.Agreeing(summary.StandardDeviation!.Value, (double)certified.Number("cert_sd")).ShouldBeGreaterThan(digits);
    }

    [Fact]
    public void Equal_values_have_no_scatter_at_all()
    {
        var summary = SampleSummary.Of(Enumerable.Repeat(0.1, 7).ToList());
        summary.Mean.ShouldBe(0.1);
        summary.StandardDeviation.ShouldBe(0);
        summary.LagOneCorrelation.ShouldBeNull();
    }

    [Fact]
    public void A_single_value_has_a_mean_and_no_scatter()
    {
        var summary = SampleSummary.Of([3.5]);
        summary.Mean.ShouldBe(3.5);
        summary.StandardDeviation.ShouldBeNull();
        summary.StandardError.ShouldBeNull();
        summary.MeanInterval(0.95).ShouldBeNull();
    }

    /// <summary>Student's interval for n = 2: the mean ± 12.706 s/√2.</summary>
    [Fact]
    public void The_interval_of_the_mean_is_Students()
    {
        var interval = SampleSummary.Of([1.0, 3.0]).MeanInterval(0.95).ShouldNotBeNull();
        interval.Low.ShouldBe(2 - 12.7062047361747, 1e-10);
        interval.High.ShouldBe(2 + 12.7062047361747, 1e-10);
    }

    [Fact]
    public void A_shift_moves_the_mean_alone_and_a_scale_both() =>
        Values.Select(Gen.Double[-1e4, 1e4], Gen.Double[0.01, 100]).Sample(drawn =>
        {
            var (values, shift, scale) = drawn;
            var (plain, moved) = (SampleSummary.Of(values), SampleSummary.Of(values.Select(value => (value * scale) + shift).ToArray()));
            moved.Mean.ShouldBe((plain.Mean * scale) + shift, 1e-9);
            moved.StandardDeviation!.Value.ShouldBe(plain.StandardDeviation!.Value * scale, 1e-9);
        });

    [Fact]
    public void The_order_of_the_values_moves_neither_mean_nor_deviation() =>
        Values.Sample(values =>
        {
            var (plain, turned) = (SampleSummary.Of(values), SampleSummary.Of(values.Reverse().ToArray()));
            turned.Mean.ShouldBe(plain.Mean, 1e-12);
            turned.StandardDeviation!.Value.ShouldBe(plain.StandardDeviation!.Value, 1e-12);
        });

    [Fact]
    public void What_is_no_number_is_refused()
    {
        Should.Throw<ArgumentOutOfRangeException>(() => SampleSummary.Of([1, double.NaN]));
        Should.Throw<ArgumentOutOfRangeException>(() => SampleSummary.Of([1, double.PositiveInfinity]));
        Should.Throw<ArgumentOutOfRangeException>(() => SampleSummary.Of([1e101]));
        Should.Throw<ArgumentException>(() => SampleSummary.Of(Array.Empty<double>()));
    }

    private static List<decimal> Data(string dataset) => ReferenceFile.Rows("nist_strd_univariate_data.csv").Where(row => row["dataset"] == dataset).Select(row => row.Number("y")).ToList();
}
