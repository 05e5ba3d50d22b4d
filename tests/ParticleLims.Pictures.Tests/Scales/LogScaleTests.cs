using System.Globalization;
using CsCheck;
using ParticleLims.Pictures.Scales;
using Shouldly;
using Xunit;

namespace ParticleLims.Pictures.Tests.Scales;

public sealed class LogScaleTests
{
    private static readonly Gen<double[]> _sizes = Gen.Double[-3, 5].Select(power => Math.Pow(10, power)).Array[1, 8];

    [Fact]
    public void Every_label_is_1_2_or_5_times_a_power_of_ten_and_is_the_value_it_stands_at()
    {
        _sizes.Sample(sizes =>
        {
            foreach (var tick in LogScale.Holding(sizes, 0, 700).Ticks(20).Where(tick => tick.IsMajor))
            {
                tick.Label.Trim('0', '.').ShouldBeOneOf("1", "2", "5");
                double.Parse(tick.Label, CultureInfo.InvariantCulture).ShouldBe(tick.Value, tick.Value * 1e-12);
            }
        });
    }

    [Fact]
    public void At_least_two_labels_lie_on_any_scale_and_no_two_of_them_touch()
    {
        Gen.Select(_sizes, Gen.Double[150, 900]).Sample((sizes, width) =>
        {
            var scale = LogScale.Holding(sizes, 0, width);
            var places = scale.Ticks(20).Where(tick => tick.IsMajor).Select(tick => scale.Position(tick.Value)).ToList();
            places.Count.ShouldBeGreaterThanOrEqualTo(2);
            places.Zip(places.Skip(1)).ShouldAllBe(pair => pair.Second - pair.First >= 14);
        });
    }

    [Fact]
    public void Ticks_rise_and_stay_on_the_scale_with_eight_minor_ones_in_a_decade()
    {
        var ticks = new LogScale(10, 100, 0, 500).Ticks(20);
        ticks.Select(tick => tick.Value).ShouldBe([10, 20, 30, 40, 50, 60, 70, 80, 90, 100]);
        ticks.Where(tick => tick.IsMajor).Select(tick => tick.Label).ShouldBe(["10", "20", "50", "100"]);
        _sizes.Sample(sizes =>
        {
            var scale = LogScale.Holding(sizes, 0, 500);
            var values = scale.Ticks(20).Select(tick => tick.Value).ToList();
            values.ShouldBeInOrder(SortDirection.Ascending);
            values.ShouldAllBe(value => value >= scale.Lowest && value <= scale.Highest);
        });
    }

    [Fact]
    public void All_values_lie_inside_with_a_margin()
    {
        _sizes.Sample(sizes =>
        {
            var scale = LogScale.Holding(sizes, 10, 500);
            sizes.ShouldAllBe(size => scale.Position(size) > 10 && scale.Position(size) < 500);
            (scale.Highest / scale.Lowest).ShouldBeGreaterThanOrEqualTo(LogScale.LeastRatio);
        });
    }

    [Fact]
    public void Labels_below_one_are_decimal_fractions() =>
        new LogScale(0.004, 0.3, 0, 500).Ticks(20).Where(tick => tick.IsMajor).Select(tick => tick.Label).ShouldBe(["0.005", "0.01", "0.02", "0.05", "0.1", "0.2"]);

    [Fact]
    public void Only_powers_of_ten_are_labelled_where_room_is_short() =>
        new LogScale(1, 10_000, 0, 200).Ticks(20).Where(tick => tick.IsMajor).Select(tick => tick.Label).ShouldBe(["1", "10", "100", "1000", "10000"]);

    [Fact]
    public void Labels_with_many_zeros_are_powers_and_stand_apart_on_a_very_long_scale()
    {
        new LogScale(2e6, 2e7, 0, 500).Ticks(20).Where(tick => tick.IsMajor).Select(tick => tick.Label).ShouldBe(["2000000", "5000000", "1e7", "2e7"]);
        var scale = new LogScale(1e-90, 1e90, 0, 400);
        var places = scale.Ticks(30).Where(tick => tick.IsMajor).Select(tick => scale.Position(tick.Value)).ToList();
        places.Count.ShouldBeGreaterThan(3);
        places.Zip(places.Skip(1)).ShouldAllBe(pair => pair.Second - pair.First >= 30 - 1e-9);
    }

    [Fact]
    public void A_scale_that_touches_zero_is_refused()
    {
        Should.Throw<ArgumentOutOfRangeException>(() => new LogScale(0, 10, 0, 100));
        Should.Throw<ArgumentOutOfRangeException>(() => new LogScale(10, 10, 0, 100));
        Should.Throw<ArgumentOutOfRangeException>(() => new LogScale(10, double.NaN, 0, 100));
    }
}
