using ParticleLims.Analysis.Statistics.Processes;

namespace ParticleLims.Analysis.Tests.Statistics.Processes;

/// <summary>No worked example with numbers was found in print; each rule is shown on a series that breaks it alone, and on one that just does not.</summary>
public sealed class RunRuleTests
{
    public static TheoryData<RunRule, double[], int[]> Breaking => new()
    {
        { RunRule.BeyondThreeSigma, [0.5, 3.01, -0.4], [1] },
        { RunRule.RunOnOneSide, [-1.2, 0.1, 0.4, 0.2, 0.6, 0.3, 0.5, 0.1, 0.4, 0.2], [1, 2, 3, 4, 5, 6, 7, 8, 9] },
        { RunRule.SixInTrend, [0.5, -1.2, -0.8, -0.4, 0.1, 0.5, 0.9], [1, 2, 3, 4, 5, 6] },
        { RunRule.FourteenAlternating, [1.2, -0.3, 0.2, -0.5, 0.3, -0.2, 0.4, -0.1, 0.6, -0.6, 0.1, -0.3, 0.5, -1.3], [0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13] },
        { RunRule.TwoOfThreeBeyondTwoSigma, [0.1, 2.1, -0.4, 2.2], [1, 3] },
        { RunRule.FourOfFiveBeyondOneSigma, [-0.1, -1.1, -1.3, 0.4, -1.2, -1.5], [1, 2, 4, 5] },
        { RunRule.FifteenWithinOneSigma, [0.5, -0.9, 0.1, 0.2, -0.3, -0.4, 0.6, -0.2, -0.1, 0.9, 0.3, -0.5, -0.2, 0.7, -0.1], [0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14] },
        { RunRule.EightBeyondOneSigma, [1.1, -1.2, -1.3, 1.4, 1.2, -1.1, 1.3, -1.2], [0, 1, 2, 3, 4, 5, 6, 7] },
    };

    [Theory]
    [MemberData(nameof(Breaking))]
    public void A_series_made_for_one_rule_breaks_that_rule_alone(RunRule rule, double[] distances, int[] points)
    {
        var hits = RunRules.Broken(distances.Select(distance => 50 + (2 * distance)).ToList(), 50, 2, RunRule.Nelson);
        var hit = hits.ShouldHaveSingleItem();
        hit.Rule.ShouldBe(rule);
        hit.Points.ShouldBe(points);
        hit.Words.ShouldNotBeEmpty();
        RunRules.Broken(distances, 0, 1, RunRule.Nelson & ~rule).ShouldBeEmpty("the rule is switched off");
        RunRules.Broken(distances[..^1], 0, 1, rule).Length.ShouldBe(rule == RunRule.BeyondThreeSigma ? 1 : 0, "the last point completes it");
    }

    [Theory]
    [MemberData(nameof(Breaking))]
    public void The_series_turned_about_the_centre_breaks_the_same_rule(RunRule rule, double[] distances, int[] points) =>
        RunRules.Broken(distances.Select(distance => -distance).ToList(), 0, 1, RunRule.Nelson).ShouldHaveSingleItem().Points.ToArray().ShouldBe(points, rule.ToString());

    [Fact]
    public void Eight_on_one_side_are_enough_for_Western_Electric()
    {
        double[] eight = [0.1, 0.4, 0.2, 0.6, 0.3, 0.5, 0.1, 0.4];
        RunRules.Broken(eight, 0, 1, RunRule.WesternElectric, sameSide: 8).ShouldHaveSingleItem().Rule.ShouldBe(RunRule.RunOnOneSide);
        RunRules.Broken(eight, 0, 1, RunRule.Nelson).ShouldBeEmpty();
    }

    [Fact]
    public void A_point_on_a_line_is_not_beyond_it() => RunRules.Broken([3, 0, -3, 0, 2, 2, 0], 0, 1, RunRule.BeyondThreeSigma | RunRule.TwoOfThreeBeyondTwoSigma).ShouldBeEmpty();

    /// <summary>
    /// The chance of each rule at one point of a long series of normal values, p(k) being the probability beyond k σ on one side: 2 p(3); 2 · 2⁻⁹; 2/6!; 2 E₁₄/14! with the zigzag number 199 360 981; 2 p(2) (1 - (1 - p(2))²); 2 p(1) (4 p(1)³ (1 - p(1)) + p(1)⁴); 0.6827¹⁵; 0.3173⁸. Simulated with 200 000 points.
    /// </summary>
    [Theory]
    [InlineData(RunRule.BeyondThreeSigma, 0.0027, 0.0004)]
    [InlineData(RunRule.RunOnOneSide, 0.00391, 0.0008)]
    [InlineData(RunRule.SixInTrend, 0.00278, 0.0006)]
    [InlineData(RunRule.FifteenWithinOneSigma, 0.00326, 0.0012)]
    [InlineData(RunRule.EightBeyondOneSigma, 0.000103, 0.0001)]
    [InlineData(RunRule.TwoOfThreeBeyondTwoSigma, 0.00205, 0.0004)]
    [InlineData(RunRule.FourOfFiveBeyondOneSigma, 0.00447, 0.0006)]
    [InlineData(RunRule.FourteenAlternating, 0.00457, 0.0009)]
    public void Chance_breaks_a_rule_as_often_as_computed(RunRule rule, double expected, double tolerance)
    {
        var random = new Normals(3);
        const int Points = 200_000;
        var values = Enumerable.Range(0, Points).Select(_ => random.Next()).ToList();
        ((double)RunRules.Broken(values, 0, 1, rule).Length / Points).ShouldBe(expected, tolerance);
    }
}
