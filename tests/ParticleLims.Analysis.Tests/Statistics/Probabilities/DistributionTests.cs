using CsCheck;
using MathNet.Numerics.Distributions;
using ParticleLims.Analysis.Distributions.Functions;
using ParticleLims.Analysis.Statistics.Probabilities;

namespace ParticleLims.Analysis.Tests.Statistics.Probabilities;

/// <summary>Against the tables of every textbook on statistics, against R 4.2 and against MathNet.Numerics.</summary>
public sealed class DistributionTests
{
    private const double Infinite = double.PositiveInfinity;

    /// <summary>Student's t as printed in GUM (JCGM 100:2008), table G.2, 95 % and 99 %.</summary>
    [Theory]
    [InlineData(1, 12.71, 63.66)]
    [InlineData(2, 4.30, 9.92)]
    [InlineData(5, 2.57, 4.03)]
    [InlineData(10, 2.23, 3.17)]
    [InlineData(20, 2.09, 2.85)]
    [InlineData(50, 2.01, 2.68)]
    [InlineData(100, 1.984, 2.626)]
    [InlineData(Infinite, 1.960, 2.576)]
    public void The_quantile_of_t_is_that_of_the_printed_table(double freedom, double at95, double at99)
    {
        var digits = freedom >= 100 ? 3 : 2;
        Math.Round(StudentDistribution.TwoSided(0.95, freedom), digits).ShouldBe(at95);
        Math.Round(StudentDistribution.TwoSided(0.99, freedom), digits).ShouldBe(at99);
    }

    /// <summary>qt(0.975, ...) of R 4.2; for a million degrees of freedom eleven digits.</summary>
    [Theory]
    [InlineData(0.5, 164.557673480494)]
    [InlineData(1, 12.7062047361747)]
    [InlineData(2, 4.30265272974946)]
    [InlineData(5, 2.57058183563631)]
    [InlineData(10, 2.22813885198627)]
    [InlineData(30, 2.04227245630124)]
    [InlineData(1e6, 1.95996635681411)]
    public void The_quantile_of_t_has_twelve_digits(double freedom, double expected) =>
        StudentDistribution.QuantileAbove(0.025, freedom).ShouldBe(expected, (freedom > 1e5 ? 5e-12 : 5e-13) * expected);

    /// <summary>Chi-square as printed in NIST/SEMATECH e-Handbook 1.3.6.7.4, upper 5 % and lower 5 %, from memory.</summary>
    [Theory]
    [InlineData(1, 3.841, 0.004)]
    [InlineData(5, 11.070, 1.145)]
    [InlineData(10, 18.307, 3.940)]
    [InlineData(30, 43.773, 18.493)]
    [InlineData(100, 124.342, 77.929)]
    public void The_quantile_of_chi_square_is_that_of_the_printed_table(double freedom, double upper, double lower)
    {
        Math.Round(ChiSquareDistribution.Quantile(0.95, freedom), 3).ShouldBe(upper);
        Math.Round(ChiSquareDistribution.Quantile(0.05, freedom), 3).ShouldBe(lower);
    }

    /// <summary>F as printed in NIST/SEMATECH e-Handbook 1.3.6.7.3, upper 5 %, from memory.</summary>
    [Theory]
    [InlineData(1, 1, 161.448)]
    [InlineData(3, 10, 3.708)]
    [InlineData(5, 20, 2.711)]
    [InlineData(10, 60, 1.993)]
    public void The_quantile_of_F_is_that_of_the_printed_table(double upper, double lower, double expected) =>
        Math.Round(FisherDistribution.QuantileAbove(0.05, upper, lower), 3).ShouldBe(expected);

    /// <summary>pt, pchisq and pf of R 4.2, far out where one minus a probability has no digits left.</summary>
    [Fact]
    public void Small_tails_keep_their_digits()
    {
        StudentDistribution.Above(40, 3).ShouldBe(1.71903403945793e-05, 1e-17);
        StudentDistribution.Above(2, 1e6).ShouldBe(0.0227502669256596, 1e-12);
        ChiSquareDistribution.Above(100, 3).ShouldBe(1.55415943138961e-21, 1e-33);
        ChiSquareDistribution.Above(1200, 1000).ShouldBe(1.22559423306229e-05, 1e-15);
        FisherDistribution.Above(50, 4, 7).ShouldBe(3.11590259248428e-05, 1e-16);
    }

    [Fact]
    public void The_probabilities_agree_with_another_library() =>
        Gen.Double[0.01, 40].Select(Gen.Double[0.5, 300], Gen.Double[0.5, 300]).Sample(
            drawn =>
            {
                var (x, one, other) = drawn;
                StudentDistribution.Above(x, one).ShouldBe(StudentT.CDF(0, 1, one, -x), 1e-10);
                ChiSquareDistribution.Below(x, one).ShouldBe(ChiSquared.CDF(one, x), 1e-10);
                FisherDistribution.Above(x, one, other).ShouldBe(1 - FisherSnedecor.CDF(one, other, x), 1e-10);
            },
            iter: 2_000);

    [Fact]
    public void A_quantile_leads_back_to_its_probability() =>
        Gen.Double[1e-9, 0.999].Select(Gen.Double[0.5, 500]).Sample(
            drawn =>
            {
                var (p, freedom) = drawn;
                StudentDistribution.Above(StudentDistribution.QuantileAbove(p, freedom), freedom).ShouldBe(p, 1e-11 * p + 1e-13);
                ChiSquareDistribution.Below(ChiSquareDistribution.Quantile(p, freedom), freedom).ShouldBe(p, 1e-11 * p + 1e-13);
                FisherDistribution.Above(FisherDistribution.QuantileAbove(p, freedom, 7), freedom, 7).ShouldBe(p, 1e-11 * p + 1e-13);
            },
            iter: 300);

    [Fact]
    public void The_square_of_t_is_an_F_and_the_square_of_a_normal_a_chi_square() =>
        Gen.Double[0.01, 8].Select(Gen.Double[1, 200]).Sample(drawn =>
        {
            var (x, freedom) = drawn;
            FisherDistribution.Above(x * x, 1, freedom).ShouldBe(StudentDistribution.Outside(x, freedom), 1e-12);
            ChiSquareDistribution.Above(x * x, 1).ShouldBe(2 * NormalDistribution.Below(-x), 1e-13);
        });

    [Fact]
    public void Endless_degrees_of_freedom_make_t_normal()
    {
        StudentDistribution.Above(1.5, Infinite).ShouldBe(NormalDistribution.Below(-1.5));
        StudentDistribution.Above(1.5, 1e9).ShouldBe(NormalDistribution.Below(-1.5), 1e-8);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(double.NaN)]
    public void A_probability_out_of_range_is_refused(double p) => Should.Throw<ArgumentOutOfRangeException>(() => StudentDistribution.QuantileAbove(p, 3));

    [Theory]
    [InlineData(0)]
    [InlineData(-1)]
    [InlineData(double.NaN)]
    public void Degrees_of_freedom_out_of_range_are_refused(double freedom) => Should.Throw<ArgumentOutOfRangeException>(() => ChiSquareDistribution.Below(1, freedom));
}
