using CsCheck;
using ParticleLims.Analysis.Distributions.Functions;

namespace ParticleLims.Analysis.Tests.Distributions;

/// <summary>Against the platform's own functions, which are good to a unit in the last place but not the same on every machine.</summary>
public sealed class ElementaryFunctionTests
{
    private const double TwoUnits = 4.5e-16;

    [Fact]
    public void The_logarithm_is_good_to_the_last_digits() =>
        Gen.Double[-30, 30].Sample(
            power =>
            {
                var x = Math.Pow(10, power);
                NaturalLogarithm.Of(x).ShouldBe(Math.Log(x), TwoUnits * Math.Max(Math.Abs(Math.Log(x)), 1e-300));
            },
            iter: 20_000);

    [Fact]
    public void The_logarithm_near_one_loses_nothing() =>
        Gen.Double[-16, -1].Sample(power =>
        {
            var f = Math.Pow(10, power);
            NaturalLogarithm.OfOnePlus(f).ShouldBe(f - (f * f / 2) + (f * f * f / 3) - (f * f * f * f / 4) + (Math.Pow(f, 5) / 5), f * f * f * f * f * f + (f * TwoUnits));
        });

    [Fact]
    public void The_exponential_is_good_to_the_last_digits() =>
        Gen.Double[-100, 100].Sample(x => Exponential.Of(x).ShouldBe(Math.Exp(x), 2 * TwoUnits * Math.Exp(x)), iter: 20_000);

    [Fact]
    public void Known_values_are_met()
    {
        NaturalLogarithm.Of(1).ShouldBe(0);
        NaturalLogarithm.Of(2).ShouldBe(0.6931471805599453);
        NaturalLogarithm.Of(10).ShouldBe(2.302585092994046);
        Exponential.Of(0).ShouldBe(1);
        Exponential.Of(1).ShouldBe(2.718281828459045, TwoUnits * 2);
    }

    [Fact]
    public void An_exponent_out_of_range_is_refused()
    {
        Should.Throw<ArgumentOutOfRangeException>(() => Exponential.Of(701));
        Should.Throw<ArgumentOutOfRangeException>(() => Exponential.Of(double.NaN));
    }

    /// <summary>Γ(1/2) = √π (Abramowitz and Stegun 6.1.8); Γ(n) = (n - 1)!; ln Γ(100) = ln 99!, by Python's math.lgamma.</summary>
    [Theory]
    [InlineData(0.5, 0.5723649429247001)]
    [InlineData(1, 0)]
    [InlineData(2, 0)]
    [InlineData(5, 3.1780538303479458)]
    [InlineData(100, 359.1342053695754)]
    public void The_logarithm_of_the_gamma_function_has_its_known_values(double z, double expected) => GammaFunction.LogOf(z).ShouldBe(expected, 3e-14 * (1 + expected));

    [Fact]
    public void The_gamma_function_grows_by_its_argument() =>
        Gen.Double[1e-6, 150].Sample(z => (GammaFunction.LogOf(z + 1) - GammaFunction.LogOf(z)).ShouldBe(Math.Log(z), 1e-12));

    [Fact]
    public void The_exponential_of_the_fits_agrees_with_the_platform_to_1e_minus_15() =>
        Gen.Double[-690, 690].Sample(x => PolynomialExponential.Of(x).ShouldBe(Math.Exp(x), Math.Exp(x) * 1e-15));

    [Fact]
    public void The_exponential_of_the_fits_less_one_loses_nothing_near_zero()
    {
        Gen.Double[-0.5, 0.5].Sample(x => PolynomialExponential.MinusOne(x).ShouldBe(Exponential.MinusOne(x), Math.Abs(Exponential.MinusOne(x)) * 2e-15));
        PolynomialExponential.MinusOne(1e-300).ShouldBe(1e-300);
        PolynomialExponential.Of(1e9).ShouldBe(PolynomialExponential.Of(690));
    }
}
