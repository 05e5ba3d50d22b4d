using System.Globalization;
using CsCheck;
using ParticleLims.Analysis.Conformity;
using ParticleLims.Analysis.Distributions;
using ParticleLims.Analysis.Findings;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Analysis.Tests.ReferenceData;
using ParticleLims.Analysis.Uncertainty;

namespace ParticleLims.Analysis.Tests.Conformity;

/// <summary>ILAC-G8:09/2019 and JCGM 106:2012; the published and computed values stand, with their sources, in ReferenceData/conformity_examples.csv.</summary>
public sealed class GuardedAcceptanceTests
{
    private static readonly LimitInput AtLeast97 = new() { Characteristic = Characteristic.Passing, Aperture = Aperture.FromMicrometres(63m), Lower = 97m };

    /// <summary>JCGM 106:2012, 7.4: x = 13.6, u = 1.8, limits 12.5 and 16.3; the conformance probability is not in the text seen, 0.662630 is computed (scipy.stats.norm).</summary>
    [Fact]
    public void The_two_sided_example_of_JCGM_106_has_its_probability() =>
        new ValueUncertainty(1.8, 3.6, true, null).ProbabilityWithin(13.6, 12.5, 16.3).ShouldBe(0.662630, 5e-7);

    /// <summary>JCGM 106:2012, one-sided example (from memory): x = -5.47 V, u = 0.05 V, at most -5.40 V: 0.92.</summary>
    [Fact]
    public void The_one_sided_example_of_JCGM_106_has_its_probability() =>
        new ValueUncertainty(0.05, 0.1, true, null).ProbabilityWithin(-5.47, double.NegativeInfinity, -5.40).ShouldBe(0.919243, 5e-7);

    /// <summary>ILAC-G8: the greatest specific risk of a false acceptance, that of a value on the acceptance limit, for each guard factor; with U = 1.96 u and U = 2 u.</summary>
    [Fact]
    public void A_value_on_the_acceptance_limit_has_the_risk_of_ILAC_G8()
    {
        var rows = ReferenceFile.Rows("conformity_examples.csv").Where(row => row["source"].StartsWith("ILAC-G8", StringComparison.Ordinal)).ToList();
        rows.Count.ShouldBe(7);
        foreach (var row in rows)
        {
            var factor = decimal.Parse(row["case"].Split('=', ':')[1], CultureInfo.InvariantCulture);
            var risks = row["computed"].Split(" / ").Select(text => double.Parse(text.TrimEnd('%', ' '), CultureInfo.InvariantCulture)).ToList();
            OnTheLimit(factor, 2).ShouldBe(risks[0], 6e-6);
            OnTheLimit(factor, 1.96).ShouldBe(risks[1], 6e-6);
        }
    }

    [Theory]
    [InlineData(97.8, Verdict.Conforms)]
    [InlineData(97.6, Verdict.DoesNotConform)]
    [InlineData(96.4, Verdict.DoesNotConform)]
    public void Guarded_acceptance_accepts_inside_the_guard_band_only(double passing, Verdict expected) =>
        Judge(AtLeast97 with { Rule = DecisionRule.Guarded }, (decimal)passing).Verdict.ShouldBe(expected);

    /// <summary>u = 0.35 %, so U = 0.686 %: accepted from 97.686, does not conform below 96.314.</summary>
    [Theory]
    [InlineData(97.7, Verdict.Conforms)]
    [InlineData(97.6, Verdict.ConformsWithinGuardBand)]
    [InlineData(97.0, Verdict.ConformsWithinGuardBand)]
    [InlineData(96.9, Verdict.DoesNotConformWithinGuardBand)]
    [InlineData(96.4, Verdict.DoesNotConformWithinGuardBand)]
    [InlineData(96.3, Verdict.DoesNotConform)]
    public void Four_states_tell_the_guard_bands_apart(double passing, Verdict expected) =>
        Judge(AtLeast97 with { Rule = DecisionRule.FourState }, (decimal)passing).Verdict.ShouldBe(expected);

    /// <summary>
    /// The four zones and their three borders (ILAC-G8:09/2019, 4.2.3) by a lower, an upper and both limits: a value on the acceptance limit conforms, one on the tolerance limit conforms within the guard band, and one
    /// on the far edge of the band does not conform within it; the next number beyond each border belongs to the next zone.
    /// </summary>
    [Theory]
    [InlineData(97.0, null)]
    [InlineData(null, 97.0)]
    [InlineData(90.0, 97.0)]
    public void Each_border_of_the_four_zones_belongs_to_the_better_one(double? lower, double? upper)
    {
        var limit = AtLeast97 with { Lower = (decimal?)lower, Upper = (decimal?)upper, Rule = DecisionRule.FourState };
        var band = GuardBand.Of(limit, 0.7);
        Verdict On(double value) => LimitJudgement.Judge(0, limit, CharacteristicValue.Nearly(value), new ValueUncertainty(0.35, 0.7, true, null), Rounding.HalfEven).Verdict;
        if (lower is not null)
        {
            Borders(On, [band.AcceptanceLower, band.Lower, band.Lower - band.Width], Math.BitDecrement);
        }

        if (upper is not null)
        {
            Borders(On, [band.AcceptanceUpper, band.Upper, band.Upper + band.Width], Math.BitIncrement);
        }
    }

    [Fact]
    public void A_verdict_carries_what_it_was_taken_with()
    {
        var verdict = Judge(AtLeast97 with { Rule = DecisionRule.Guarded, GuardFactor = 0.5m, Upper = 100m }, 98m);
        verdict.ExpandedUncertainty.ShouldNotBeNull().ShouldBe(0.35 * 1.959963984540054, 1e-12);
        verdict.AcceptanceLower.ShouldNotBeNull().ShouldBe(97 + (0.175 * 1.959963984540054), 1e-12);
        verdict.AcceptanceUpper.ShouldNotBeNull().ShouldBe(100 - (0.175 * 1.959963984540054), 1e-12);
        verdict.ProbabilityOfConformity.ShouldNotBeNull().ShouldBe(0.997863, 1e-6);
    }

    [Fact]
    public void Simple_acceptance_with_an_uncertainty_states_the_probability_and_keeps_the_limit()
    {
        var verdict = Judge(AtLeast97, 97m);
        (verdict.Verdict, verdict.AcceptanceLower).ShouldBe((Verdict.Conforms, 97));
        verdict.ProbabilityOfConformity.ShouldNotBeNull().ShouldBe(0.5, 1e-12);
    }

    /// <summary>97.66 is shown as 97.7, which a reader would accept.</summary>
    [Fact]
    public void The_verdict_is_taken_on_the_unrounded_value_and_both_are_stated()
    {
        var verdict = Judge(AtLeast97 with { Rule = DecisionRule.Guarded }, 97.66m);
        (verdict.Rounded, verdict.Verdict, verdict.VerdictAsRounded).ShouldBe(("97.7", Verdict.DoesNotConform, Verdict.Conforms));
    }

    [Fact]
    public void Limits_nearer_than_twice_U_are_noted_and_guard_bands_that_meet_are_a_finding()
    {
        var narrow = Result(AtLeast97 with { Rule = DecisionRule.Guarded, GuardFactor = 0.5m, Upper = 98m }, 97.5m);
        narrow.Findings.ShouldContain(finding => finding.Code == FindingCodes.LimitNarrow && finding.Severity == FindingSeverity.Note);
        narrow.Verdicts[0].Verdict.ShouldBe(Verdict.Conforms);
        var empty = Result(AtLeast97 with { Rule = DecisionRule.Guarded, Upper = 98m }, 97.5m);
        empty.Findings.ShouldContain(finding => finding.Code == FindingCodes.LimitEmpty && finding.Severity == FindingSeverity.Finding);
        empty.Verdicts[0].Verdict.ShouldBe(Verdict.DoesNotConform);
    }

    /// <summary>45 % pass 20 µm with u = 0.35 %: D40 lies below 20 µm beyond doubt, D44.8 perhaps not.</summary>
    [Fact]
    public void A_size_below_the_apertures_is_decided_where_it_surely_lies_there()
    {
        var limit = new LimitInput { Characteristic = Characteristic.Percentile, Percent = 40m, Upper = 25m, Rule = DecisionRule.Guarded };
        var sure = Judge(limit, 45m, 20m);
        (sure.Verdict, sure.Relation, sure.ExpandedUncertainty, sure.ProbabilityOfConformity).ShouldBe((Verdict.Conforms, Relation.Below, null, null));
        Judge(limit with { Percent = 44.8m }, 45m, 20m).Verdict.ShouldBe(Verdict.Undecided);
        Judge(limit with { Upper = null, Lower = 10m }, 45m, 20m).Verdict.ShouldBe(Verdict.Undecided);
        Judge(limit with { Upper = null, Lower = 21m }, 45m, 20m).Verdict.ShouldBe(Verdict.DoesNotConform);
    }

    /// <summary>The mean of two replicates with u = 0.35 % each has 0.35/√2 %.</summary>
    [Fact]
    public void The_mean_of_replicates_is_judged_with_its_own_uncertainty()
    {
        var limit = AtLeast97 with { Rule = DecisionRule.Guarded };
        var verdict = Engine.JudgeReplicates([Result(limit, 97.5m), Result(limit, 97.6m)], [limit]).Verdicts[0];
        verdict.ExpandedUncertainty.ShouldNotBeNull().ShouldBe(0.35 / Math.Sqrt(2) * 1.959963984540054, 1e-9);
        verdict.Verdict.ShouldBe(Verdict.Conforms);
        Engine.JudgeReplicates([Result(limit, 97.5m)], [limit]).Verdicts[0].Verdict.ShouldBe(Verdict.DoesNotConform);
    }

    /// <summary>What replicates on the same sieve have in common does not average out.</summary>
    [Fact]
    public void The_apertures_part_of_the_uncertainty_stays_in_the_mean()
    {
        var limit = new LimitInput { Characteristic = Characteristic.Percentile, Percent = 50m, Upper = 60m, Rule = DecisionRule.Guarded };
        var one = (Requests.Given((32m, 40m), (45m, 60m)) with { Uncertainty = new UncertaintyInput(), Limits = [limit] });
        one = one with { Cuts = one.Cuts.Select(cut => cut with { ApertureStandardUncertainty = Aperture.FromMicrometres(1m) }).ToList() };
        var verdict = Engine.JudgeReplicates([one.Result(), one.Result(), one.Result()], [limit]).Verdicts[0];
        verdict.ExpandedUncertainty.ShouldNotBeNull().ShouldBe(one.Result().Verdicts[0].ExpandedUncertainty.ShouldNotBeNull(), 1e-9);
    }

    /// <summary>Whatever the limits: the more guarded, the less is accepted; and the probabilities of lying below, within and above add up to one.</summary>
    [Fact]
    public void A_wider_guard_band_never_accepts_more() => Gen.Select(Gen.Int[9_000, 9_999], Gen.Int[9_000, 9_999], Gen.Int[0, 30], Gen.Int[0, 30]).Sample((value, lower, one, other) =>
    {
        var limit = AtLeast97 with { Lower = lower / 100m, Rule = DecisionRule.Guarded };
        var (less, more) = (Math.Min(one, other) / 10m, Math.Max(one, other) / 10m);
        if (Judge(limit with { GuardFactor = more }, value / 100m).Verdict == Verdict.Conforms)
        {
            Judge(limit with { GuardFactor = less }, value / 100m).Verdict.ShouldBe(Verdict.Conforms);
        }
    });

    [Fact]
    public void Probabilities_of_below_within_and_above_add_up_to_one() => Gen.Select(Gen.Double[0, 100], Gen.Double[0, 100], Gen.Double[0, 100], Gen.Double[0.001, 20]).Sample((value, a, b, u) =>
    {
        var (lower, upper) = (Math.Min(a, b), Math.Max(a, b));
        var known = new ValueUncertainty(u, 2 * u, true, null);
        var sum = known.ProbabilityWithin(value, double.NegativeInfinity, lower) + known.ProbabilityWithin(value, lower, upper) + known.ProbabilityWithin(value, upper, double.PositiveInfinity);
        sum.ShouldBe(1, 1e-12);
    });

    /// <summary>
    /// Measured: a true value on the limit, results scattered by u around it, judged with w = U = 1.96 u. At most 2.5 % may be accepted (ILAC-G8:09/2019, table 1); five standard errors of 40 000
    /// trials are 0.39 %. Between two limits far apart it is the risk of the nearer one; where they are only 3 U apart the other one takes nothing away that five standard errors would show.
    /// </summary>
    [Theory]
    [InlineData(97.0, null, 97.0)]
    [InlineData(null, 97.0, 97.0)]
    [InlineData(90.0, 97.0, 97.0)]
    [InlineData(97.0, 99.058, 97.0)]
    public void False_acceptance_at_the_limit_is_at_most_two_and_a_half_percent(double? lower, double? upper, double truth)
    {
        var random = new Random(20_261_125);
        var (limit, accepted) = (AtLeast97 with { Lower = (decimal?)lower, Upper = (decimal?)upper, Rule = DecisionRule.Guarded }, 0);
        const int Trials = 40_000;
        for (var i = 0; i < Trials; i++)
        {
            var scatter = Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
            var value = CharacteristicValue.Nearly(truth + (0.35 * scatter));
            accepted += LimitJudgement.Judge(0, limit, value, new ValueUncertainty(0.35, 0.35 * 1.959963984540054, true, null), Rounding.HalfEven).Verdict == Verdict.Conforms ? 1 : 0;
        }

        (100.0 * accepted / Trials).ShouldBeInRange(2.5 - 0.39, 2.5 + 0.39);
    }

    private static void Borders(Func<double, Verdict> on, double[] borders, Func<double, double> beyond)
    {
        Verdict[] zones = [Verdict.Conforms, Verdict.ConformsWithinGuardBand, Verdict.DoesNotConformWithinGuardBand, Verdict.DoesNotConform];
        for (var border = 0; border < borders.Length; border++)
        {
            on(borders[border]).ShouldBe(zones[border]);
            on(beyond(borders[border])).ShouldBe(zones[border + 1]);
        }
    }

    private static double OnTheLimit(decimal factor, double expandedPerStandard)
    {
        var limit = AtLeast97 with { Rule = DecisionRule.Guarded, GuardFactor = factor };
        var uncertainty = new ValueUncertainty(0.35, 0.35 * expandedPerStandard, true, null);
        var band = GuardBand.Of(limit, uncertainty.Expanded);
        LimitJudgement.Judge(0, limit, CharacteristicValue.Nearly(band.AcceptanceLower), uncertainty, Rounding.HalfEven).Verdict.ShouldBe(Verdict.Conforms);
        return 100 * (1 - uncertainty.ProbabilityWithin(band.AcceptanceLower, 97, double.PositiveInfinity));
    }

    private static LimitVerdict Judge(LimitInput limit, decimal passing, decimal micrometres = 63m) => Result(limit, passing, micrometres).Verdicts[0];

    private static EvaluationResult Result(LimitInput limit, decimal passing, decimal micrometres = 63m)
    {
        var given = Requests.Given((micrometres, passing));
        return (given with { Cuts = [given.Cuts[0] with { PassingStandardUncertaintyPercent = 0.35m }], Uncertainty = new UncertaintyInput(), Limits = [limit] }).Result();
    }
}
