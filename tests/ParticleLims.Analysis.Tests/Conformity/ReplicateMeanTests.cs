using ParticleLims.Analysis.Conformity;
using ParticleLims.Analysis.Distributions;
using ParticleLims.Analysis.Findings;
using ParticleLims.Analysis.Quantities;

namespace ParticleLims.Analysis.Tests.Conformity;

public sealed class ReplicateMeanTests
{
    private static readonly LimitInput AtLeast97 =
        new() { Characteristic = Characteristic.Passing, Aperture = Aperture.FromMicrometres(63m), Lower = 97m, Digits = 2 };

    private static readonly LimitInput D10AtMost25 = new() { Characteristic = Characteristic.Percentile, Percent = 10m, Upper = 25m };

    /// <summary>docs/science/replicate-mean.md, worked number: 96.97, 97.01 and 97.02 %.</summary>
    [Fact]
    public void The_mean_is_judged_exactly()
    {
        var verdict = Judge(AtLeast97, [(63m, 96.97m)], [(63m, 97.01m)], [(63m, 97.02m)]);
        verdict.Rounded.ShouldBe("97.00");
        verdict.Verdict.ShouldBe(Verdict.Conforms);
        Judge(AtLeast97, [(63m, 96.97m)], [(63m, 97.01m)], [(63m, 97.0199m)]).Verdict.ShouldBe(Verdict.DoesNotConform);
    }

    [Fact]
    public void The_order_of_the_replicates_does_not_matter()
    {
        (decimal, decimal)[][] runs = [[(20m, 7m), (63m, 60m)], [(20m, 5m), (63m, 61m)], [(20m, 6m), (63m, 62.5m)]];
        Judge(D10AtMost25, runs).ShouldBe(Judge(D10AtMost25, [runs[2], runs[0], runs[1]]));
    }

    [Fact]
    public void One_replicate_below_makes_the_mean_below()
    {
        var verdict = Judge(D10AtMost25, [(20m, 15m), (63m, 60m)], [(20m, 5m), (24m, 10m), (63m, 60m)]);
        (verdict.Relation, verdict.Value, verdict.Verdict).ShouldBe((Relation.Below, 22.0, Verdict.Conforms));
        var tighter = Judge(D10AtMost25 with { Upper = 21m }, [(20m, 15m), (63m, 60m)], [(20m, 5m), (24m, 10m), (63m, 60m)]);
        tighter.Verdict.ShouldBe(Verdict.Undecided);
    }

    [Fact]
    public void One_below_and_one_above_have_no_mean()
    {
        var median = new LimitInput { Characteristic = Characteristic.Percentile, Percent = 50m, Upper = 1000m };
        var verdict = Judge(median, [(20m, 60m)], [(20m, 40m)]);
        verdict.Value.ShouldBeNull();
        verdict.Verdict.ShouldBe(Verdict.Undecided);
    }

    [Fact]
    public void A_replicate_without_the_value_leaves_the_mean_undecided()
    {
        var slope = new LimitInput { Characteristic = Characteristic.RosinRammlerSlope, Lower = 0.1m };
        Judge(slope, [(20m, 15m), (63m, 60m)], [(20m, 15m)]).Verdict.ShouldBe(Verdict.Undecided);
        Judge(slope, [(20m, 15m), (63m, 60m)]).Verdict.ShouldBe(Verdict.Conforms);
    }

    [Fact]
    public void Replicates_further_apart_than_the_repeatability_limit_give_no_result()
    {
        var limit = AtLeast97 with { RepeatabilityLimit = 0.5m };
        Judge(limit, [(63m, 97m)], [(63m, 97.5m)]).Verdict.ShouldBe(Verdict.Conforms);
        var apart = Engine.JudgeReplicates([Requests.Given((63m, 97m)).Result(), Requests.Given((63m, 97.51m)).Result()], [limit]);
        apart.Verdicts[0].Verdict.ShouldBe(Verdict.Undecided);
        var finding = apart.Findings.ShouldHaveSingleItem();
        (finding.Code, finding.Severity, finding.Member).ShouldBe((FindingCodes.ReplicatesApart, FindingSeverity.Finding, "limits[0]"));
    }

    [Fact]
    public void Limits_that_cannot_be_judged_are_told()
    {
        var verdicts = Engine.JudgeReplicates([Requests.Given((63m, 97m)).Result()], [AtLeast97 with { Digits = 10 }]);
        verdicts.Verdicts.ShouldBeEmpty();
        verdicts.Findings.ShouldHaveSingleItem().Code.ShouldBe(FindingCodes.DigitsOutsideRange);
    }

    [Fact]
    public void A_guard_band_without_an_uncertainty_leaves_the_limit_undecided()
    {
        var verdicts = Engine.JudgeReplicates([Requests.Given((63m, 98m)).Result()], [AtLeast97 with { Rule = DecisionRule.Guarded }]);
        verdicts.Verdicts[0].Verdict.ShouldBe(Verdict.Undecided);
        verdicts.Findings.ShouldHaveSingleItem().Code.ShouldBe(FindingCodes.UncertaintyMissing);
    }

    [Fact]
    public void No_replicate_at_all_is_a_programming_error() =>
        Should.Throw<ArgumentException>(() => Engine.JudgeReplicates([], [AtLeast97]));

    private static LimitVerdict Judge(LimitInput limit, params (decimal, decimal)[][] runs) =>
        Engine.JudgeReplicates(runs.Select(points => Requests.Given(points).Result()).ToList(), [limit]).Verdicts.ShouldHaveSingleItem();
}
