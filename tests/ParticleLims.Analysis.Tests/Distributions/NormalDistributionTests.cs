using CsCheck;
using ParticleLims.Analysis.Distributions.Functions;

namespace ParticleLims.Analysis.Tests.Distributions;

/// <summary>Against mpmath 1.2.1 with 80 digits: <c>ncdf(z)</c> and <c>sqrt(2)*erfinv(2*p-1)</c>.</summary>
public sealed class NormalDistributionTests
{
    [Theory]
    [InlineData(-30, 4.906713927148187e-198)]
    [InlineData(-8, 6.220960574271784e-16)]
    [InlineData(-3, 0.0013498980316300946)]
    [InlineData(-2.5, 0.006209665325776135)]
    [InlineData(-2.4, 0.00819753592459613)]
    [InlineData(-1, 0.15865525393145705)]
    [InlineData(0, 0.5)]
    [InlineData(0.5, 0.6914624612740131)]
    [InlineData(1, 0.8413447460685429)]
    [InlineData(2.4, 0.9918024640754038)]
    [InlineData(3, 0.9986501019683699)]
    public void The_probability_below_agrees_to_fourteen_digits(double z, double probability) =>
        NormalDistribution.Below(z).ShouldBe(probability, 1e-14 * probability);

    [Theory]
    [InlineData(1e-20, -9.262340089798407)]
    [InlineData(1e-9, -5.9978070150076865)]
    [InlineData(0.001, -3.0902323061678136)]
    [InlineData(0.025, -1.9599639845400543)]
    [InlineData(0.075, -1.439531470938456)]
    [InlineData(0.3, -0.5244005127080408)]
    [InlineData(0.5, 0)]
    [InlineData(0.8, 0.8416212335729142)]
    [InlineData(0.975, 1.9599639845400543)]
    public void The_quantile_agrees_to_fifteen_digits(double probability, double z) =>
        NormalDistribution.Quantile(probability, 1 - probability).ShouldBe(z, 1e-15 * Math.Max(1, Math.Abs(z)));

    [Fact]
    public void The_quantile_of_the_probability_is_the_number_again() =>
        Gen.Double[-6, 6].Sample(z =>
            NormalDistribution.Quantile(NormalDistribution.Below(z), NormalDistribution.Below(-z)).ShouldBe(z, 1e-12));

    [Fact]
    public void Far_out_nothing_is_left()
    {
        NormalDistribution.Below(-40).ShouldBe(0);
        NormalDistribution.Below(40).ShouldBe(1);
    }
}
