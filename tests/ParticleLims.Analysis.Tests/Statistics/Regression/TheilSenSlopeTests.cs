using CsCheck;
using ParticleLims.Analysis.Statistics.Regression;

namespace ParticleLims.Analysis.Tests.Statistics.Regression;

public sealed class TheilSenSlopeTests
{
    private static readonly double[] SenX = [1, 2, 3, 4, 10, 12, 18];
    private static readonly double[] SenY = [9, 15, 19, 20, 45, 55, 78];

    /// <summary>Sen, Journal of the American Statistical Association 63 (1968) 1379, example: slope 4, 93 % interval from 3.71 to 4.38 (data and results as public tests of SciPy quote them, from memory).</summary>
    [Fact]
    public void Sens_own_example_is_met()
    {
        var line = TheilSenSlope.Of(SenX, SenY, 0.93);
        line.Slope.ShouldBe(4);
        line.Intercept.ShouldBe(4);
        Math.Round(line.SlopeInterval.Low, 2).ShouldBe(3.71);
        Math.Round(line.SlopeInterval.High, 2).ShouldBe(4.38);
        line.HasDrift.ShouldBeTrue();
    }

    /// <summary>n (n-1)(2n+5)/18 = 44.33 for seven; a pair of ties takes 2 · 1 · 9/18 = 1 away (Kendall).</summary>
    [Fact]
    public void Ties_take_their_share_of_the_variance()
    {
        TheilSenSlope.VarianceOfKendallsSum(SenX, SenY).ShouldBe(7 * 6 * 19 / 18.0, 1e-12);
        TheilSenSlope.VarianceOfKendallsSum([1, 2, 3, 4, 10, 12, 12], SenY).ShouldBe((7 * 6 * 19 / 18.0) - 1, 1e-12);
    }

    [Fact]
    public void One_wild_value_does_not_move_the_drift()
    {
        var y = SenX.Select(x => 2 * x).ToArray();
        y[3] = 1e6;
        TheilSenSlope.Of(SenX, y, 0.95).Slope.ShouldBe(2);
    }

    [Fact]
    public void Level_values_have_no_drift()
    {
        var line = TheilSenSlope.Of([1, 2, 3, 4, 5], [7, 7, 7, 7, 7], 0.95);
        line.Slope.ShouldBe(0);
        line.HasDrift.ShouldBeFalse();
    }

    [Fact]
    public void A_drift_added_is_found_and_a_scale_scales() =>
        Gen.Double[-10, 10].Array[4, 25].Where(y => y.Distinct().Count() == y.Length).Select(Gen.Double[-5, 5], Gen.Double[0.1, 10]).Sample(drawn =>
        {
            var (y, drift, scale) = drawn;
            var x = y.Select((_, i) => (double)i).ToArray();
            var drifting = y.Select((value, i) => (scale * value) + (drift * i)).ToArray();
            if (drifting.Distinct().Count() < drifting.Length)
            {
                return; // ties narrow the interval
            }

            var (plain, moved) = (TheilSenSlope.Of(x, y, 0.95), TheilSenSlope.Of(x, drifting, 0.95));
            moved.Slope.ShouldBe((scale * plain.Slope) + drift, 1e-10);
            moved.SlopeInterval.Low.ShouldBe((scale * plain.SlopeInterval.Low) + drift, 1e-10);
        });

    [Fact]
    public void Points_above_each_other_have_no_slope() => Should.Throw<ArgumentException>(() => TheilSenSlope.Of([1, 1, 1], [1, 2, 3], 0.95));
}
