using CsCheck;
using ParticleLims.Analysis.Quantities;

namespace ParticleLims.Analysis.Tests.Quantities;

public sealed class TemperatureTests
{
    [Fact]
    public void Water_freezes_at_273_150_millikelvins() => Temperature.FromCelsius(0m).Millikelvins.ShouldBe(273_150);

    [Fact]
    public void What_was_written_in_degrees_reads_back_exactly() =>
        Gen.Int[-273_150, 1_726_850].Sample(thousandths => Temperature.FromCelsius(thousandths / 1_000m).Celsius == thousandths / 1_000m);

    [Fact]
    public void Colder_is_less() =>
        Gen.Select(Gen.Int[-20_000, 60_000], Gen.Int[-20_000, 60_000]).Sample((one, other) =>
        {
            var (left, right) = (Temperature.FromCelsius(one / 1_000m), Temperature.FromCelsius(other / 1_000m));
            return left < right == one < other && left > right == one > other && left <= right == one <= other && left >= right == one >= other;
        });

    [Theory]
    [InlineData(-1)]
    [InlineData(2_000_001)]
    public void Outside_its_range_it_is_an_exception(long millikelvins) => Should.Throw<ArgumentOutOfRangeException>(() => Temperature.FromMillikelvins(millikelvins));

    [Fact]
    public void It_is_said_in_degrees_with_a_point() => Temperature.FromCelsius(21.5m).ToString().ShouldBe("21.5 °C");
}
