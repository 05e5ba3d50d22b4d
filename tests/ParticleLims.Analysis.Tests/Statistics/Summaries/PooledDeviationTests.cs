using ParticleLims.Analysis.Statistics.Summaries;
using ParticleLims.Analysis.Statistics.Variance;
using ParticleLims.Analysis.Tests.ReferenceData;

namespace ParticleLims.Analysis.Tests.Statistics.Summaries;

public sealed class PooledDeviationTests
{
    /// <summary>Within equal groups it is the residual standard deviation that NIST certifies for SiRstvt.</summary>
    [Fact]
    public void It_is_the_certified_residual_deviation_of_SiRstvt()
    {
        var groups = Anova.Groups("SiRstvt").ConvertAll(group => group.ConvertAll(value => (double)value));
        var pooled = PooledDeviation.Of(groups);
        pooled.DegreesOfFreedom.ShouldBe(20);
        Digits.Agreeing(pooled.StandardDeviation, Anova.Value("SiRstvt", "residual_sd")).ShouldBeGreaterThan(12);
        pooled.StandardDeviation.ShouldBe(OneWayAnova.Of(groups).Precision!.Repeatability, 1e-15);
    }

    /// <summary>Duplicates: √(Σ d² / 2p).</summary>
    [Fact]
    public void Duplicates_pool_by_their_differences() =>
        PooledDeviation.Of([[1, 2], [10, 12], [100, 103], [7]]).StandardDeviation.ShouldBe(Math.Sqrt((1 + 4 + 9) / 6.0), 1e-15);

    /// <summary>s √(9/χ²) with χ² = 2.70038949998036 and 19.0227677986416 (qchisq of R 4.2).</summary>
    [Fact]
    public void The_interval_is_by_chi_square()
    {
        var interval = PooledDeviation.Of([[1, 2, 3, 4, 5, 6, 7, 8, 9, 10]]).DeviationInterval(0.95);
        interval.Low.ShouldBe(3.0276503540974917 * Math.Sqrt(9 / 19.0227677986416), 1e-12);
        interval.High.ShouldBe(3.0276503540974917 * Math.Sqrt(9 / 2.70038949998036), 1e-12);
    }

    [Fact]
    public void Single_values_alone_pool_to_nothing() => Should.Throw<ArgumentException>(() => PooledDeviation.Of([[1], [2]]));
}
