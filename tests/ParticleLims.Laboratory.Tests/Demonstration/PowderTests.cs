using ParticleLims.Laboratory.Demonstration.Model;

namespace ParticleLims.Laboratory.Tests.Demonstration;

public sealed class PowderTests
{
    [Theory]
    [InlineData(0, 0.5)]
    [InlineData(1, 0.841344746)]
    [InlineData(-1.959963985, 0.025)]
    [InlineData(2.575829304, 0.995)]
    public void A_log_normal_powder_follows_the_normal_distribution(double deviations, double finer) =>
        new LogNormalPowder(30, 0.5).FinerThan(30 * Math.Exp(0.5 * deviations)).ShouldBe(finer, 1e-6); // NIST/SEMATECH e-Handbook 1.3.6.7.1, digits beyond its table from memory

    [Fact]
    public void A_rosin_rammler_powder_has_its_median_and_lets_63_2_percent_through_at_its_size()
    {
        var powder = RosinRammlerPowder.OfMedian(43, 1.9);
        powder.FinerThan(43).ShouldBe(0.5, 1e-12);
        powder.FinerThan(powder.Size).ShouldBe(1 - Math.Exp(-1), 1e-12);
    }

    [Fact]
    public void A_coarser_powder_lets_less_through()
    {
        foreach (var powder in ProductLine.All.Select(line => line.Powder))
        {
            powder.Coarser(1.1).FinerThan(63).ShouldBeLessThan(powder.FinerThan(63));
        }
    }
}
