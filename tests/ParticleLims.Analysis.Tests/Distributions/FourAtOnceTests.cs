using System.Runtime.Intrinsics;
using CsCheck;
using ParticleLims.Analysis.Distributions.Functions;
using ParticleLims.Analysis.Distributions.Rules;

namespace ParticleLims.Analysis.Tests.Distributions;

/// <summary>What is computed four at a time has the bits of what is computed one by one, for both stand in stored answers.</summary>
public sealed class FourAtOnceTests
{
    private static readonly Gen<double> Near = Gen.OneOf(Gen.Double[-1, 1], Gen.Double[-40, 40], Gen.Double[-1e-9, 1e-9], RandomRequests.OneOf(0.0, -0.0, 0.35, -0.35, 1.5, -1.5, 37, -37, 6.5));
    private static readonly Gen<double> Wide = Gen.OneOf(Near, Gen.Double[-690, 690], RandomRequests.OneOf(690.0, -690));

    [Fact]
    public void Four_exponentials_are_the_bits_of_each() =>
        Gen.OneOf(Wide, Gen.Double[-700, 700]).Array[4].Sample(x =>
        {
            Same(FourExponentials.Of(Vector256.Create(x)), x, Exponential.Of);
            Same(FourExponentials.MinusOne(Vector256.Create(x)), x, Exponential.MinusOne);
        });

    [Fact]
    public void Four_exponentials_of_the_fits_are_the_bits_of_each() =>
        Gen.OneOf(Wide, Gen.Double[-1e9, 1e9]).Array[4].Sample(x =>
        {
            Same(FourExponentials.Polynomial(Vector256.Create(x)), x, PolynomialExponential.Of);
            Same(FourExponentials.PolynomialMinusOne(Vector256.Create(x)), x, PolynomialExponential.MinusOne);
        });

    /// <summary>Tails and middles in every mixture, so that fractions of several fours are computed together.</summary>
    [Fact]
    public void Percentages_of_several_ordinates_are_the_bits_of_each_in_every_net() =>
        Gen.Select(RandomRequests.OneOf(Net.RosinRammler, Net.LogNormal, Net.GatesGaudinSchuhmann, Net.PowerLaw), Gen.OneOf(Near, Gen.Double[-3, 3], Gen.Double[-1000, 100]).Array[16]).Sample((net, ordinates) =>
        {
            var fours = new Vector256<double>[4];
            for (var i = 0; i < fours.Length; i++)
            {
                fours[i] = Vector256.Create(ordinates, 4 * i);
            }

            var (percents, slopes, alone) = (new Vector256<double>[4], new Vector256<double>[4], new Vector256<double>[4]);
            net.Percents(fours, percents, slopes);
            net.Percents(fours, alone);
            for (var i = 0; i < fours.Length; i++)
            {
                Same(percents[i], ordinates[(4 * i)..], ordinate => net.Percent(ordinate, out _));
                Same(slopes[i], ordinates[(4 * i)..], net.Slope);
                Same(alone[i], ordinates[(4 * i)..], net.Percent);
            }
        });

    [Fact]
    public void Fours_hold_what_is_asked() => new[] { 0, 1, 4, 5, 8 }.Select(Net.Fours).ShouldBe([0, 1, 1, 2, 2]);

    private static void Same(Vector256<double> fours, double[] x, Func<double, double> one)
    {
        for (var lane = 0; lane < Vector256<double>.Count; lane++)
        {
            BitConverter.DoubleToInt64Bits(fours[lane]).ShouldBe(BitConverter.DoubleToInt64Bits(one(x[lane])), $"at {x[lane]:R}");
        }
    }
}
