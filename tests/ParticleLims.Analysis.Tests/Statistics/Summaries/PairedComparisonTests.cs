using CsCheck;
using ParticleLims.Analysis.Statistics.Summaries;

namespace ParticleLims.Analysis.Tests.Statistics.Summaries;

public sealed class PairedComparisonTests
{
    /// <summary>Student's own example, hours of sleep gained under two drugs (Biometrika 6 (1908) 1), as the data set "sleep" of R.</summary>
    private static readonly double[] First = [0.7, -1.6, -0.2, -1.2, -0.1, 3.4, 3.7, 0.8, 0.0, 2.0];
    private static readonly double[] Second = [1.9, 0.8, 1.1, 0.1, -0.1, 4.4, 5.5, 1.6, 4.6, 3.4];

    /// <summary>Peak flow by two meters, Bland and Altman, Lancet 327 (1986) 307, table 1, from memory.</summary>
    private static readonly double[] Large = [494, 395, 516, 434, 476, 557, 413, 442, 650, 433, 417, 656, 267, 478, 178, 423, 427];
    private static readonly double[] Mini = [512, 430, 520, 428, 500, 600, 364, 380, 658, 445, 432, 626, 260, 477, 259, 350, 451];

    /// <summary>Expected: t.test(..., paired = TRUE) of R 4.2, t = 4.062127683, p = 0.0028328902, interval 0.700114 to 2.459886.</summary>
    [Fact]
    public void Students_sleep_data_give_his_t()
    {
        var comparison = PairedComparison.Of(First, Second);
        comparison.MeanDifference.ShouldBe(1.58, 1e-14);
        comparison.T!.Value.ShouldBe(4.062127683, 1e-9);
        comparison.Probability!.Value.ShouldBe(0.0028328902, 1e-10);
        comparison.DegreesOfFreedom.ShouldBe(9);
        comparison.DifferenceInterval.Low.ShouldBe(0.700114236723, 1e-11);
        comparison.DifferenceInterval.High.ShouldBe(2.459885763277, 1e-11);
    }

    /// <summary>
    /// Published: bias 2.1 (the other way round -2.1), s 38.8, limits with k = 2 from -79.7 to 75.5, interval of the bias -22.0 to 17.8, of the lower limit -114.3 to -45.1. The paper rounds
    /// s and takes 3 s²/n for the variance of a limit, where we keep n - 1: the interval of the limit agrees to 0.7.
    /// </summary>
    [Fact]
    public void The_published_meters_agree_within_the_published_limits()
    {
        var limits = LimitsOfAgreement.Of(Mini, Large, factor: 2);
        Math.Round(limits.Bias, 1).ShouldBe(-2.1);
        Math.Round(limits.DifferenceDeviation, 1).ShouldBe(38.8);
        limits.LowerLimit.ShouldBe(-79.7, 0.1);
        limits.UpperLimit.ShouldBe(75.5, 0.1);
        limits.BiasInterval.Low.ShouldBe(-22.0, 0.1);
        limits.BiasInterval.High.ShouldBe(17.8, 0.1);
        limits.LowerInterval.Low.ShouldBe(-114.3, 0.7);
        limits.LowerInterval.High.ShouldBe(-45.1, 0.7);
        limits.SlopeOverMean.ShouldNotBeNull().ShouldBe(0, 0.1);
    }

    [Fact]
    public void Equal_differences_have_no_t()
    {
        var comparison = PairedComparison.Of([1, 2, 3], [2, 3, 4]);
        comparison.MeanDifference.ShouldBe(1);
        comparison.T.ShouldBeNull();
        comparison.Probability.ShouldBeNull();
        LimitsOfAgreement.Of([1, 1, 1], [2, 2, 2]).SlopeOverMean.ShouldBeNull();
    }

    [Fact]
    public void To_change_sides_changes_the_sign() =>
        Gen.Double[-100, 100].Array[3, 20].SelectMany(first => Gen.Double[-100, 100].Array[first.Length].Select(second => (first, second))).Sample(drawn =>
        {
            var (there, back) = (LimitsOfAgreement.Of(drawn.first, drawn.second), LimitsOfAgreement.Of(drawn.second, drawn.first));
            back.Bias.ShouldBe(-there.Bias, 1e-12);
            back.LowerLimit.ShouldBe(-there.UpperLimit, 1e-10);
            back.UpperInterval.High.ShouldBe(-there.LowerInterval.Low, 1e-10);
        });

    [Fact]
    public void Lists_of_different_length_are_refused() => Should.Throw<ArgumentException>(() => PairedComparison.Of([1, 2, 3], [1, 2]));
}
