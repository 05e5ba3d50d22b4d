using CsCheck;
using ParticleLims.Analysis.Distributions;
using ParticleLims.Analysis.Quantities;

namespace ParticleLims.Analysis.Tests.Distributions;

public sealed class DistributionCurveTests
{
    /// <summary>docs/science/interpolation.md, worked number: D50 between 45 µm, 42 % and 63 µm, 67 %.</summary>
    [Theory]
    [InlineData(Interpolation.Linear, 50.76)]
    [InlineData(Interpolation.LogLinear, 50.115664)]
    public void A_percentile_lies_on_the_straight_line_of_its_rule(Interpolation interpolation, double size)
    {
        var result = (Requests.Given((45m, 42m), (63m, 67m)) with { Settings = Settings(interpolation, 50m) }).Result();
        result.Percentiles.ShouldHaveSingleItem().Micrometres.ShouldBe(size, 5e-7);
    }

    [Fact]
    public void A_percentile_on_a_point_is_its_aperture_exactly()
    {
        foreach (var interpolation in new[] { Interpolation.Linear, Interpolation.LogLinear })
        {
            var result = (Requests.Given((38.1m, 50m), (63m, 97m)) with { Settings = Settings(interpolation, 50m, 97m) }).Result();
            result.Percentiles.ShouldAllBe(percentile => percentile.Relation == Relation.Equal);
            result.Percentiles.Select(percentile => percentile.Micrometres).ShouldBe([38.1, 63.0]);
        }
    }

    [Fact]
    public void Outside_the_apertures_a_percentile_is_below_or_above()
    {
        var result = (Requests.Given((20m, 15m), (125m, 96m)) with { Settings = Settings(Interpolation.LogLinear, 10m, 97m) }).Result();
        result.Percentiles.Select(percentile => (percentile.Relation, percentile.Micrometres))
            .ShouldBe([(Relation.Below, 20.0), (Relation.Above, 125.0)]);
        result.Curve.PassingPercentAt(19.9).ShouldBeNull();
        result.Curve.PassingPercentAt(125.1).ShouldBeNull();
        result.Curve.PassingPercentAt(double.NaN).ShouldBeNull();
    }

    [Fact]
    public void On_a_level_stretch_the_finest_size_is_taken()
    {
        var result = (Requests.Given((20m, 10m), (32m, 50m), (45m, 50m), (63m, 90m)) with { Settings = Settings(Interpolation.LogLinear, 50m) }).Result();
        result.Percentiles.ShouldHaveSingleItem().Micrometres.ShouldBe(32);
        result.Curve.PassingPercentAt(40).ShouldBe(50);
    }

    /// <summary>docs/science/span.md, worked number.</summary>
    [Fact]
    public void The_span_is_the_width_over_the_median()
    {
        var result = Requests.Given((10m, 10m), (40m, 50m), (90m, 90m)).Result();
        result.Span.ShouldBe(new Span { Value = 2, Relation = Relation.Equal });
    }

    [Fact]
    public void A_span_of_an_unknown_end_is_a_lower_bound()
    {
        Requests.Given((10m, 12m), (40m, 50m), (90m, 90m)).Result().Span.ShouldBe(new Span { Value = 2, Relation = Relation.Above });
        Requests.Given((10m, 10m), (40m, 50m), (90m, 89m)).Result().Span.ShouldBe(new Span { Value = 2, Relation = Relation.Above });
    }

    [Fact]
    public void The_classes_add_up_to_the_whole()
    {
        var classes = Requests.Given((20m, 10m), (45m, 50m), (63m, 99.5m)).Result().Fractions;
        classes.Select(size => size.Percent).ShouldBe([Requests.Percent(10m), Requests.Percent(40m), Requests.Percent(49.5m), Requests.Percent(0.5m)]);
        classes[0].From.ShouldBeNull();
        classes[^1].To.ShouldBeNull();
        classes[1].From.ShouldBe(Aperture.FromMicrometres(20m));
    }

    [Theory]
    [InlineData(0)]
    [InlineData(100)]
    [InlineData(-1)]
    public void A_percentile_outside_0_to_100_percent_is_refused(int percent) =>
        Should.Throw<ArgumentOutOfRangeException>(() => Requests.Given((20m, 10m)).Result().Curve.Percentile(percent));

    [Fact]
    public void The_size_at_a_percentage_has_that_percentage() =>
        Gen.Select(RandomRequests.Monotone, RandomRequests.CurveRule, Gen.Int[1, 999]).Sample((points, interpolation, permille) =>
        {
            var curve = (Requests.Given(points) with { Settings = Settings(interpolation) }).Result().Curve;
            var percentile = curve.Percentile(permille / 10m);
            if (percentile.Relation == Relation.Equal)
            {
                curve.PassingPercentAt(percentile.Micrometres).ShouldNotBeNull().ShouldBe(permille / 10.0, 1e-7);
            }
        });

    [Fact]
    public void The_percentage_at_a_size_belongs_to_that_size() =>
        Gen.Select(RandomRequests.Strict, RandomRequests.CurveRule, Gen.Double[0.001, 0.999]).Sample((points, interpolation, share) =>
        {
            var curve = (Requests.Given(points) with { Settings = Settings(interpolation) }).Result().Curve;
            var size = (double)points[0].Micrometres * Math.Pow((double)(points[^1].Micrometres / points[0].Micrometres), share);
            var percent = curve.PassingPercentAt(size).ShouldNotBeNull();
            if (percent is > 0.0001 and < 99.9999)
            {
                curve.Percentile((decimal)percent).Micrometres.ShouldBe(size, 1e-6 * size);
            }
        });

    [Fact]
    public void The_curve_never_decreases() =>
        Gen.Select(RandomRequests.Monotone, RandomRequests.CurveRule).Sample((points, interpolation) =>
        {
            var curve = (Requests.Given(points) with { Settings = Settings(interpolation) }).Result().Curve;
            var (finest, coarsest) = ((double)points[0].Micrometres, (double)points[^1].Micrometres);
            var sizes = Enumerable.Range(0, 200).Select(i => Math.Min(coarsest, finest + ((coarsest - finest) * i / 199)));
            var percentages = sizes.Select(size => curve.PassingPercentAt(size).ShouldNotBeNull()).ToList();
            percentages.Zip(percentages.Skip(1)).ShouldAllBe(pair => pair.First <= pair.Second + 1e-11);
        });

    private static EvaluationSettings Settings(Interpolation interpolation, params decimal[] percentiles) =>
        new() { Interpolation = interpolation, Percentiles = percentiles };
}
