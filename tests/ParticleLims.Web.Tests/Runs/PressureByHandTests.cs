using ParticleLims.Web.Runs;
using Shouldly;
using Xunit;

namespace ParticleLims.Web.Tests.Runs;

public sealed class PressureByHandTests
{
    [Fact]
    public void Three_pressures_with_a_point_become_whole_pascals()
    {
        var read = PressureByHand.Read("3.1", " 3.325 ", "4");
        read.Problem.ShouldBeNull();
        (read.Seen!.Lowest.Pascals, read.Seen.Mean.Pascals, read.Seen.Highest.Pascals).ShouldBe((3100, 3325, 4000));
    }

    [Fact]
    public void Nothing_typed_is_no_pressure_and_no_problem() => PressureByHand.Read(" ", "", "").ShouldBe(new PressureByHand(null, null, IsUnfinished: false));

    [Theory]
    [InlineData("3,1", "3.2", "3.3")]
    [InlineData("-1", "3.2", "3.3")]
    [InlineData("3.1", "three", "3.3")]
    [InlineData("3.1", "3.2", "200.1")]
    [InlineData("3.1", "3.2", "3.3333")]
    [InlineData("3.1", "3.2", "1e3")]
    [InlineData("3.1", "", "3.3")]
    [InlineData("3.4", "3.2", "3.3")]
    public void What_is_no_pressure_is_refused_in_words(string lowest, string mean, string highest)
    {
        var read = PressureByHand.Read(lowest, mean, highest);
        read.Seen.ShouldBeNull();
        read.IsUnfinished.ShouldBeTrue();
        read.Problem.ShouldNotBeNullOrEmpty();
    }
}
