using CsCheck;
using ParticleLims.Pictures.Scales;
using Shouldly;
using Xunit;

namespace ParticleLims.Pictures.Tests.Scales;

public sealed class ResidueScaleTests
{
    [Fact]
    public void The_height_is_zero_where_the_residue_is_one_part_in_e() => ResidueScale.Height(100 / Math.E).ShouldBe(0, 1e-12);

    [Fact]
    public void Less_residue_stands_higher()
    {
        Gen.Select(Gen.Double[0.01, 99.9], Gen.Double[0.01, 99.9]).Where((a, b) => a < b).Sample((less, more) =>
            ResidueScale.Height(less).ShouldBeGreaterThan(ResidueScale.Height(more)));
    }

    [Fact]
    public void Labels_keep_their_distance_and_36_point_8_always_stands()
    {
        Gen.Double[0.02, 99.95].Array[0, 8].Sample(residues =>
        {
            var scale = new ResidueScale(residues, 300, 0);
            var ticks = scale.Ticks(14);
            ticks.ShouldContain(tick => tick.Label == "36.8");
            var places = ticks.Select(tick => scale.Position(tick.Value)).ToList();
            places.Zip(places.Skip(1)).ShouldAllBe(pair => pair.First - pair.Second >= 14);
            residues.ShouldAllBe(residue => scale.Position(residue) > 0 && scale.Position(residue) < 300);
        });
    }

    [Theory]
    [InlineData(0)]
    [InlineData(100)]
    [InlineData(-1)]
    [InlineData(double.NaN)]
    public void Nothing_and_everything_have_no_place(double residue) => Should.Throw<ArgumentOutOfRangeException>(() => ResidueScale.Height(residue));
}
