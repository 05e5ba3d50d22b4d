using System.Numerics;
using CsCheck;
using ParticleLims.Analysis.Quantities;

namespace ParticleLims.Analysis.Tests.Quantities;

public sealed class RatioTests
{
    private static readonly Gen<Ratio> AnyRatio =
        Gen.Select(Gen.Long, Gen.Long.Where(number => number != 0), (numerator, denominator) => Ratio.Of(numerator, denominator));

    [Fact]
    public void A_fraction_is_kept_in_lowest_terms_with_a_positive_denominator()
    {
        var ratio = Ratio.Of(6, -4);
        ratio.Numerator.ShouldBe(new BigInteger(-3));
        ratio.Denominator.ShouldBe(new BigInteger(2));
        default(Ratio).Denominator.ShouldBe(BigInteger.One);
        default(Ratio).ShouldBe(Ratio.Of(0, 17));
    }

    [Fact]
    public void A_denominator_of_zero_is_refused() =>
        Should.Throw<ArgumentOutOfRangeException>(() => Ratio.Of(1, 0));

    /// <summary>ISO 80000-1:2009, annex B, rules A and B: 12.25 to the range 0.1 becomes 12.2 and 12.3; 12.35 becomes 12.4 by both.</summary>
    [Theory]
    [InlineData(1225, 100, 1, "12.2", "12.3")]
    [InlineData(1235, 100, 1, "12.4", "12.4")]
    [InlineData(12251, 1000, 1, "12.3", "12.3")]
    [InlineData(-1225, 100, 1, "-12.2", "-12.3")]
    [InlineData(1, 2, 0, "0", "1")]
    [InlineData(3, 2, 0, "2", "2")]
    [InlineData(-1, 100, 1, "0.0", "0.0")]
    [InlineData(2, 3, 4, "0.6667", "0.6667")]
    [InlineData(99995, 1000, 2, "100.00", "100.00")]
    public void A_number_is_rounded_once(int numerator, int denominator, int digits, string halfEven, string halfAway)
    {
        Ratio.Of(numerator, denominator).ToString(digits, Rounding.HalfEven).ShouldBe(halfEven);
        Ratio.Of(numerator, denominator).ToString(digits, Rounding.HalfAwayFromZero).ShouldBe(halfAway);
    }

    [Fact]
    public void The_bounds_round_to_their_own_side()
    {
        Ratio.Of(75, 2).Floor(0).ShouldBe(Ratio.Of(37, 1));
        Ratio.Of(75, 2).Ceiling(0).ShouldBe(Ratio.Of(38, 1));
        Ratio.Of(-75, 2).Floor(0).ShouldBe(Ratio.Of(-38, 1));
        Ratio.Of(37, 1).Ceiling(0).ShouldBe(Ratio.Of(37, 1));
    }

    [Fact]
    public void More_digits_than_can_be_shown_are_refused()
    {
        Should.Throw<ArgumentOutOfRangeException>(() => Ratio.One.ToString(21, Rounding.HalfEven));
        Should.Throw<ArgumentOutOfRangeException>(() => Ratio.One.Round(-1, Rounding.HalfEven));
    }

    [Fact]
    public void What_is_written_is_read_again() =>
        AnyRatio.Sample(ratio => Ratio.Parse(ratio.ToString()).ShouldBe(ratio));

    [Theory]
    [InlineData("12")]
    [InlineData("1/x")]
    [InlineData("1/-2")]
    public void Text_that_is_no_fraction_is_refused(string text) =>
        Should.Throw<FormatException>(() => Ratio.Parse(text));

    [Fact]
    public void A_double_becomes_a_fraction_and_the_same_double_again() =>
        Gen.Double.Where(double.IsNormal).Sample(number => Ratio.FromDouble(number).ToDouble().ShouldBe(number));

    [Fact]
    public void A_number_that_is_not_finite_is_no_fraction()
    {
        Should.Throw<ArgumentOutOfRangeException>(() => Ratio.FromDouble(double.NaN));
        Should.Throw<ArgumentOutOfRangeException>(() => Ratio.FromDouble(double.PositiveInfinity));
    }

    /// <summary>The quotient of two doubles is the nearest double to the exact quotient (IEEE 754).</summary>
    [Fact]
    public void The_nearest_double_is_that_of_a_division()
    {
        var whole = Gen.Long[1, 1L << 53];
        Gen.Select(whole, whole).Sample((numerator, denominator) =>
            Ratio.Of(numerator, denominator).ToDouble().ShouldBe((double)numerator / denominator));
    }

    [Fact]
    public void A_decimal_becomes_the_same_fraction() =>
        Gen.Decimal[-1_000_000m, 1_000_000m].Sample(number =>
            Ratio.FromDecimal(number).Round(9, Rounding.HalfEven)
                .ShouldBe(Ratio.FromDecimal(decimal.Round(number, 9, MidpointRounding.ToEven))));

    [Fact]
    public void Sums_products_and_order_agree_with_each_other() =>
        Gen.Select(AnyRatio, AnyRatio, AnyRatio).Sample((a, b, c) =>
        {
            ((a + b) * c).ShouldBe((a * c) + (b * c));
            (a - b + b).ShouldBe(a);
            (a < b).ShouldBe((a - b).Sign < 0);
            if (c.Sign != 0)
            {
                (a * c / c).ShouldBe(a);
            }
        });

    /// <summary>Short or long: what arises is the fraction of the whole numbers of any length.</summary>
    [Fact]
    public void Sums_and_products_are_those_of_whole_numbers_of_any_length()
    {
        var whole = Gen.OneOf(Gen.Long, Gen.Long[-1_000, 1_000], Gen.Long[-1_000_000_000, 1_000_000_000], RandomRequests.OneOf(long.MaxValue, long.MinValue, -long.MaxValue, 0, 1));
        Gen.Select(whole, whole.Where(number => number != 0), whole, whole.Where(number => number != 0)).Sample((a, b, c, d) =>
        {
            var (left, right) = (Ratio.Of(a, b), Ratio.Of(c, d));
            (left + right).ShouldBe(Ratio.Of(((BigInteger)a * d) + ((BigInteger)c * b), (BigInteger)b * d));
            (left - right).ShouldBe(Ratio.Of(((BigInteger)a * d) - ((BigInteger)c * b), (BigInteger)b * d));
            (left * right).ShouldBe(Ratio.Of((BigInteger)a * c, (BigInteger)b * d));
            left.CompareTo(right).ShouldBe(((BigInteger)a * d * b * d).CompareTo((BigInteger)c * b * b * d));
            BigInteger.GreatestCommonDivisor(left.Numerator, left.Denominator).ShouldBe(BigInteger.One);
            left.Denominator.Sign.ShouldBe(1);
            if (c != 0)
            {
                (left / right).ShouldBe(Ratio.Of((BigInteger)a * d, (BigInteger)b * c));
            }
        });
    }

    [Fact]
    public void The_greatest_divisor_is_that_of_whole_numbers_of_any_length() =>
        Gen.Select(Gen.Long[-long.MaxValue, long.MaxValue], Gen.Long[-1_000_000, 1_000_000]).Sample((left, right) =>
            ((BigInteger)WholeNumbers.GreatestDivisor(left, right)).ShouldBe(BigInteger.GreatestCommonDivisor(left, right)));

    [Fact]
    public void A_decimal_of_any_length_becomes_the_same_fraction() =>
        new[] { 0.5m, -12.250m, 79228162514264337593543950335m, -0.0000000000000000000000000001m, 9223372036854775807m, 9223372036854775808m, 0.000000000000000001m }
            .Select(Ratio.FromDecimal).Select(ratio => ratio.ToString())
            .ShouldBe(["1/2", "-49/4", "79228162514264337593543950335/1", "-1/10000000000000000000000000000", "9223372036854775807/1", "9223372036854775808/1", "1/1000000000000000000"]);
}
