using CsCheck;
using ParticleLims.Pictures.Scales;
using Shouldly;
using Xunit;

namespace ParticleLims.Pictures.Tests.Scales;

public sealed class ProbabilityScaleTests
{
    // Abramowitz and Stegun, tables 26.1 and 26.5, from memory; the engine's own tests hold its quantile against more digits.
    [Theory]
    [InlineData(50, 0)]
    [InlineData(84.13447460685429, 1)]
    [InlineData(97.5, 1.959963984540054)]
    [InlineData(2.5, -1.959963984540054)]
    [InlineData(0.1, -3.090232306167813)]
    public void The_height_is_the_normal_quantile(double percent, double quantile) => ProbabilityScale.Height(percent).ShouldBe(quantile, 1e-12);

    [Fact]
    public void More_passing_stands_higher_and_the_middle_is_the_middle()
    {
        Gen.Double[0.001, 49.9].Sample(percent =>
        {
            var scale = new ProbabilityScale([percent, 100 - percent], 300, 0);
            scale.Position(percent).ShouldBeGreaterThan(scale.Position(50));
            scale.Position(50).ShouldBe(150, 1e-6);
            scale.PositionOfHeight(ProbabilityScale.Height(percent)).ShouldBe(scale.Position(percent), 1e-9);
        });
    }

    [Fact]
    public void Labels_keep_their_distance_and_50_always_stands()
    {
        Gen.Double[0.0005, 99.9995].Array[0, 8].Sample(percents =>
        {
            var scale = new ProbabilityScale(percents, 300, 0);
            var ticks = scale.Ticks(14);
            ticks.ShouldContain(tick => tick.Label == "50");
            var places = ticks.Select(tick => scale.Position(tick.Value)).ToList();
            places.Zip(places.Skip(1)).ShouldAllBe(pair => pair.First - pair.Second >= 14);
            percents.ShouldAllBe(percent => scale.Position(percent) > 0 && scale.Position(percent) < 300);
        });
    }

    [Theory]
    [InlineData(0)]
    [InlineData(100)]
    [InlineData(-1)]
    [InlineData(double.NaN)]
    public void Nothing_and_everything_have_no_place(double percent) => Should.Throw<ArgumentOutOfRangeException>(() => ProbabilityScale.Height(percent));
}
