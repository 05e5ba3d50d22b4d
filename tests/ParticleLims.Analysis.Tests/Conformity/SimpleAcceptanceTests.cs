using ParticleLims.Analysis.Conformity;
using ParticleLims.Analysis.Distributions;
using ParticleLims.Analysis.Quantities;

namespace ParticleLims.Analysis.Tests.Conformity;

public sealed class SimpleAcceptanceTests
{
    [Theory]
    [InlineData("97", Verdict.Conforms)]
    [InlineData("97.0000001", Verdict.DoesNotConform)]
    [InlineData("96.9999999", Verdict.Conforms)]
    public void A_value_on_the_limit_conforms(string lower, Verdict verdict)
    {
        var limit = Passing(63m) with { Lower = Number(lower) };
        Judge(limit, (45m, 50m), (63m, 97m)).Verdict.ShouldBe(verdict);
    }

    /// <summary>38.1 has no exact double; the limit and the size are the same double.</summary>
    [Fact]
    public void A_percentile_on_the_limit_conforms()
    {
        var limit = Percentile(50m) with { Lower = 38.1m, Upper = 38.1m };
        Judge(limit, (38.1m, 50m), (63m, 97m)).Verdict.ShouldBe(Verdict.Conforms);
        var between = (Requests.Given((38m, 40m), (39m, 50m)) with
        {
            Settings = new EvaluationSettings { Interpolation = Interpolation.Linear },
            Limits = [Percentile(41m) with { Lower = 38.1m, Upper = 38.1m }],
        }).Result().Verdicts.ShouldHaveSingleItem();
        between.Verdict.ShouldBe(Verdict.Conforms);
        between.Rounded.ShouldBe("38.1");
    }

    [Theory]
    [InlineData(null, "25", Verdict.Conforms)]
    [InlineData(null, "20", Verdict.Conforms)]
    [InlineData(null, "19", Verdict.Undecided)]
    [InlineData("20", null, Verdict.DoesNotConform)]
    [InlineData("21", "30", Verdict.DoesNotConform)]
    [InlineData("10", null, Verdict.Undecided)]
    [InlineData("0", "20", Verdict.Conforms)]
    public void A_size_below_20_is_decided_where_it_can_be(string? lower, string? upper, Verdict verdict)
    {
        var judged = Judge(Percentile(10m) with { Lower = Optional(lower), Upper = Optional(upper) }, (20m, 15m), (125m, 96m));
        judged.Verdict.ShouldBe(verdict);
        (judged.Relation, judged.Value, judged.Rounded).ShouldBe((Relation.Below, 20.0, "20.0"));
    }

    [Theory]
    [InlineData("125", null, Verdict.Conforms)]
    [InlineData("126", null, Verdict.Undecided)]
    [InlineData(null, "125", Verdict.DoesNotConform)]
    [InlineData(null, "126", Verdict.Undecided)]
    public void A_size_above_125_is_decided_where_it_can_be(string? lower, string? upper, Verdict verdict) =>
        Judge(Percentile(97m) with { Lower = Optional(lower), Upper = Optional(upper) }, (20m, 15m), (125m, 96m)).Verdict.ShouldBe(verdict);

    /// <summary>At 10 µm no more passes than at 20 µm, 15 %, but as much is possible.</summary>
    [Theory]
    [InlineData(null, "15", Verdict.Conforms)]
    [InlineData("15", null, Verdict.Undecided)]
    [InlineData("15.1", null, Verdict.DoesNotConform)]
    [InlineData("0", "15", Verdict.Conforms)]
    public void Passing_below_the_finest_aperture_is_decided_where_it_can_be(string? lower, string? upper, Verdict verdict)
    {
        var judged = Judge(Passing(10m) with { Lower = Optional(lower), Upper = Optional(upper) }, (20m, 15m), (125m, 96m));
        judged.Verdict.ShouldBe(verdict);
        judged.Relation.ShouldBe(Relation.Below);
    }

    [Theory]
    [InlineData("96", null, Verdict.Conforms)]
    [InlineData("96.1", null, Verdict.Undecided)]
    [InlineData("96", "100", Verdict.Conforms)]
    [InlineData(null, "95.9", Verdict.DoesNotConform)]
    public void Passing_above_the_coarsest_aperture_is_decided_where_it_can_be(string? lower, string? upper, Verdict verdict) =>
        Judge(Passing(200m) with { Lower = Optional(lower), Upper = Optional(upper) }, (20m, 15m), (125m, 96m)).Verdict.ShouldBe(verdict);

    [Fact]
    public void Retained_is_the_rest_of_passing()
    {
        var retained = new LimitInput { Characteristic = Characteristic.Retained, Aperture = Aperture.FromMicrometres(63m), Upper = 3m, Digits = 2 };
        Judge(retained, (45m, 50m), (63m, 97m)).ShouldBe(new LimitVerdict
        {
            Limit = 0,
            Value = 3,
            Relation = Relation.Equal,
            Rounded = "3.00",
            Verdict = Verdict.Conforms,
            VerdictAsRounded = Verdict.Conforms,
        });
        Judge(retained with { Aperture = Aperture.FromMicrometres(32m) }, (45m, 50m), (63m, 97m)).Relation.ShouldBe(Relation.Above);
    }

    [Fact]
    public void Passing_between_two_apertures_comes_from_the_curve()
    {
        var request = Requests.Given((40m, 50m), (60m, 90m)) with
        {
            Settings = new EvaluationSettings { Interpolation = Interpolation.Linear },
            Limits = [Passing(45m) with { Lower = 60m, Upper = 60m }],
        };
        request.Result().Verdicts[0].Verdict.ShouldBe(Verdict.Conforms);
        Judge(Passing(45m), (40m, 50m), (60m, 90m)).Value.ShouldNotBeNull().ShouldBe(61.6196, 1e-4);
    }

    /// <summary>docs/science/simple-acceptance.md, worked number: 96.96 % against at least 97 %, shown with one decimal.</summary>
    [Fact]
    public void The_unrounded_value_decides_and_the_rounded_one_is_told_too()
    {
        var judged = Judge(Passing(63m) with { Lower = 97m, Digits = 1 }, (63m, 96.96m));
        judged.Rounded.ShouldBe("97.0");
        judged.Verdict.ShouldBe(Verdict.DoesNotConform);
        judged.VerdictAsRounded.ShouldBe(Verdict.Conforms);
    }

    [Fact]
    public void A_tie_is_rounded_as_the_settings_say()
    {
        var request = Requests.Given((63m, 97.25m)) with { Limits = [Passing(63m) with { Lower = 97m }] };
        request.Result().Verdicts[0].Rounded.ShouldBe("97.2");
        (request with { Settings = new EvaluationSettings { Rounding = Rounding.HalfAwayFromZero } }).Result().Verdicts[0].Rounded.ShouldBe("97.3");
    }

    [Fact]
    public void A_bound_is_rounded_to_the_side_on_which_it_stays_true()
    {
        var above = Judge(Percentile(97m) with { Lower = 30m, Digits = 0 }, (20m, 15m), (37.5m, 96m));
        above.Rounded.ShouldBe("37");
        var below = Judge(Percentile(10m) with { Lower = 30m, Digits = 0 }, (22.4m, 15m), (37.5m, 96m));
        below.Rounded.ShouldBe("23");
    }

    [Fact]
    public void The_span_and_the_line_are_judged()
    {
        (decimal, decimal)[] points = [(10m, 10m), (40m, 50m), (90m, 90m)];
        Judge(new LimitInput { Characteristic = Characteristic.Span, Upper = 2m }, points).Verdict.ShouldBe(Verdict.Conforms);
        var slope = Judge(new LimitInput { Characteristic = Characteristic.RosinRammlerSlope, Lower = 1m, Digits = 3 }, points);
        var size = Judge(new LimitInput { Characteristic = Characteristic.RosinRammlerSize, Upper = 40m }, points);
        var line = Requests.Given(points).Result().Models[0];
        slope.Value.ShouldBe(line.Slope);
        slope.Verdict.ShouldBe(Verdict.Conforms);
        size.Value.ShouldBe(line.SizeMicrometres);
        size.Verdict.ShouldBe(Verdict.DoesNotConform);
    }

    [Fact]
    public void What_could_not_be_computed_is_undecided()
    {
        var judged = Judge(new LimitInput { Characteristic = Characteristic.RosinRammlerSlope, Lower = 1m }, (63m, 97m));
        judged.Verdict.ShouldBe(Verdict.Undecided);
        judged.Value.ShouldBeNull();
        judged.Rounded.ShouldBeNull();
    }

    private static LimitVerdict Judge(LimitInput limit, params (decimal, decimal)[] points) =>
        (Requests.Given(points) with { Limits = [limit.Lower is null && limit.Upper is null ? limit with { Lower = 0m } : limit] })
            .Result().Verdicts.ShouldHaveSingleItem();

    private static LimitInput Passing(decimal micrometres) =>
        new() { Characteristic = Characteristic.Passing, Aperture = Aperture.FromMicrometres(micrometres) };

    private static LimitInput Percentile(decimal percent) => new() { Characteristic = Characteristic.Percentile, Percent = percent };

    private static decimal Number(string text) => decimal.Parse(text, System.Globalization.CultureInfo.InvariantCulture);

    private static decimal? Optional(string? text) => text is null ? null : Number(text);
}
