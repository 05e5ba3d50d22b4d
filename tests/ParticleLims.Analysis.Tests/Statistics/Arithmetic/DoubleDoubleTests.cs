using System.Numerics;
using CsCheck;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Analysis.Statistics.Arithmetic;

namespace ParticleLims.Analysis.Tests.Statistics.Arithmetic;

/// <summary>Against exact fractions.</summary>
public sealed class DoubleDoubleTests
{
    private static readonly Gen<double> Number = Gen.Double[-1, 1].Select(Gen.Int[-40, 40]).Select(pair => Math.ScaleB(pair.Item1, pair.Item2));

    private static readonly Gen<DoubleDouble> Pair = Number.Select(Number).Select(pair => (DoubleDouble)pair.Item1 + (pair.Item2 * 1e-18));

    [Fact]
    public void A_sum_is_exact_to_thirty_digits() =>
        Pair.Select(Pair).Sample(pair => IsNear(pair.Item1 + pair.Item2, Exact(pair.Item1) + Exact(pair.Item2), Magnitude(Exact(pair.Item1)) + Magnitude(Exact(pair.Item2))).ShouldBeTrue());

    [Fact]
    public void A_product_and_a_quotient_are_exact_to_thirty_digits() =>
        Pair.Select(Pair).Where(pair => pair.Item2.High != 0).Sample(pair =>
        {
            var (left, right) = (Exact(pair.Item1), Exact(pair.Item2));
            IsNear(pair.Item1 * pair.Item2, left * right, Magnitude(left * right)).ShouldBeTrue();
            IsNear(pair.Item1 / pair.Item2, left / right, Magnitude(left / right)).ShouldBeTrue();
        });

    [Fact]
    public void The_square_of_a_root_is_the_number() =>
        Pair.Where(value => value.High > 0).Sample(value =>
        {
            var root = Exact(DoubleDouble.Sqrt(value));
            Magnitude((root * root) - Exact(value)).ShouldBeLessThan(Exact(value) * Ratio.Of(1, BigInteger.Pow(10, 29)));
        });

    [Fact]
    public void A_decimal_number_keeps_its_digits()
    {
        var value = DoubleDouble.From(1000000000000.4m);
        value.High.ShouldBe(1000000000000.4);
        var error = Exact(value) - Ratio.FromDecimal(1000000000000.4m);
        Magnitude(error).ShouldBeLessThan(Ratio.Of(1, BigInteger.Pow(10, 18)));
        (DoubleDouble.From(1000000000000.4m) - DoubleDouble.From(1000000000000.3m)).ToDouble().ShouldBe(0.1);
    }

    private static bool IsNear(DoubleDouble computed, Ratio exact, Ratio scale) => Magnitude(Exact(computed) - exact) <= scale * Ratio.Of(1, BigInteger.Pow(10, 30));

    private static Ratio Exact(DoubleDouble value) => Ratio.FromDouble(value.High) + Ratio.FromDouble(value.Low);

    private static Ratio Magnitude(Ratio value) => value.Sign < 0 ? Ratio.Of(0, 1) - value : value;
}
