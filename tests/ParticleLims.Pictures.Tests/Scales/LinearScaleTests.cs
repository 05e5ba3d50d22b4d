using System.Globalization;
using CsCheck;
using ParticleLims.Pictures.Scales;
using Shouldly;
using Xunit;

namespace ParticleLims.Pictures.Tests.Scales;

public sealed class LinearScaleTests
{
    [Fact]
    public void Steps_are_1_2_or_5_times_a_power_of_ten_and_labels_are_their_values()
    {
        Gen.Select(Gen.Double[-1000, 1000], Gen.Double[0.001, 5000], Gen.Int[3, 10]).Sample((lowest, span, most) =>
        {
            var scale = new LinearScale(lowest, lowest + span, 0, 100);
            var ticks = scale.Ticks(most);
            ticks.Count.ShouldBeInRange(1, most + 1);
            ticks.ShouldAllBe(tick => scale.Position(tick.Value) > -1e-6 && scale.Position(tick.Value) < 100 + 1e-6);
            foreach (var (first, second) in ticks.Zip(ticks.Skip(1)))
            {
                var step = second.Value - first.Value;
                var digit = step / Math.Pow(10, Math.Floor(Math.Log10(step * (1 + 1e-9))));
                new[] { 1.0, 2.0, 5.0 }.ShouldContain(expected => Math.Abs(expected - digit) < 1e-4);
                double.Parse(first.Label, CultureInfo.InvariantCulture).ShouldBe(first.Value, step * 1e-6);
            }
        });
    }

    [Fact]
    public void Equal_values_get_a_range_round_them()
    {
        var scale = LinearScale.Holding([412.3, 412.3], 0, 100);
        scale.Position(412.3).ShouldBe(50, 1e-6);
        scale.Ticks(5).Count.ShouldBeGreaterThan(1);
        LinearScale.Holding([0, 0], 0, 100).Position(0).ShouldBe(50, 1e-6);
    }

    [Fact]
    public void A_scale_without_length_is_refused()
    {
        Should.Throw<ArgumentOutOfRangeException>(() => new LinearScale(1, 1, 0, 100));
        Should.Throw<ArgumentOutOfRangeException>(() => new LinearScale(double.NaN, 1, 0, 100));
        Should.Throw<ArgumentOutOfRangeException>(() => new LinearScale(0, 1, 0, 100).Ticks(1));
    }
}
