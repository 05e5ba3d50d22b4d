using ParticleLims.Analysis.Distributions;
using ParticleLims.Analysis.Findings;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Analysis.Weighings;

namespace ParticleLims.Analysis.Tests.Weighings;

public sealed class SeparatePortionsTests
{
    /// <summary>docs/science/separate-portions.md, worked number.</summary>
    [Fact]
    public void Passing_is_what_is_not_left_of_the_portion()
    {
        var result = Requests.Of(
            Procedure.SeparatePortions,
            Requests.Cut(63m, 300m, 320m, 300.53m),
            Requests.Cut(45m, 312.345m, 324.345m, 318.001m)).Result();

        result.Cuts[0].Aperture.ShouldBe(Aperture.FromMicrometres(45m));
        result.Cuts[0].RetainedPercent.ShouldBe(Ratio.Of(5_656_000 * 100, 12_000_000));
        result.Passing(45m).ToString(4, Rounding.HalfEven).ShouldBe("52.8667");
        result.Passing(63m).ShouldBe(Requests.Percent(97.35m));
        result.Cuts[1].Portion.ShouldBe(Mass.FromGrams(20m));
        result.Cuts[1].Residue.ShouldBe(Mass.FromGrams(0.53m));
        result.RecoveryPercent.ShouldBeNull();
        result.Findings.ShouldBeEmpty();
    }

    [Fact]
    public void A_gain_beyond_the_weighings_is_refused_and_names_them()
    {
        var refusal = (Requests.Of(Procedure.SeparatePortions, Requests.Cut(63m, 300m, 310m, 310.0090m)) with
        {
            WeighingStandardUncertainty = Mass.FromGrams(0.002m),
        }).Refusal();
        refusal.Code.ShouldBe(FindingCodes.MassGained);
        refusal.Member.ShouldBe("cuts[0].afterGrams");
        refusal.Message.ShouldBe("At 63 µm the sieve weighs 310.0090 g after sieving but 310.0000 g loaded: it gained 0.0090 g. Weigh both again.");
    }

    /// <summary>3 standard uncertainties of a difference of two weighings of 2 mg: 3 sqrt(2) 2 mg = 8.485 mg.</summary>
    [Theory]
    [InlineData("310.008485", true)]
    [InlineData("310.008486", false)]
    public void A_gain_that_the_weighings_explain_leaves_the_whole_portion(string after, bool explained)
    {
        var request = Requests.Of(
            Procedure.SeparatePortions,
            Requests.Cut(63m, 300m, 310m, decimal.Parse(after, System.Globalization.CultureInfo.InvariantCulture))) with
        {
            WeighingStandardUncertainty = Mass.FromGrams(0.002m),
        };
        if (explained)
        {
            request.Result().Passing(63m).ShouldBe(Ratio.Zero);
            request.Result().Findings.ShouldContain(finding => finding.Code == FindingCodes.ResidueClamped && finding.Severity == FindingSeverity.Note);
        }
        else
        {
            request.Refusal().Code.ShouldBe(FindingCodes.MassGained);
        }
    }

    [Fact]
    public void A_residue_below_zero_is_refused_or_taken_as_zero()
    {
        var request = Requests.Of(Procedure.SeparatePortions, Requests.Cut(63m, 300m, 310m, 299.999m));
        request.Refusal().Code.ShouldBe(FindingCodes.ResidueBelowZero);
        request.Refusal().Message.ShouldContain("300.0000 g empty");

        var explained = (request with { WeighingStandardUncertainty = Mass.FromGrams(0.001m) }).Result();
        explained.Passing(63m).ShouldBe(Ratio.Hundred);
        explained.Cuts[0].Residue.ShouldBe(Mass.Zero);
        explained.Findings.ShouldContain(finding => finding.Code == FindingCodes.ResidueClamped);
    }

    [Fact]
    public void Without_an_uncertainty_the_smallest_gain_is_refused() =>
        Requests.Of(Procedure.SeparatePortions, Requests.Cut(63m, 300m, 310m, 310.000001m)).Refusal().Code.ShouldBe(FindingCodes.MassGained);

    [Theory]
    [InlineData(300)]
    [InlineData(299)]
    public void A_portion_of_zero_or_less_is_refused(int loaded)
    {
        var refusal = Requests.Of(Procedure.SeparatePortions, Requests.Cut(63m, 300m, loaded, 300m)).Refusal();
        refusal.Code.ShouldBe(FindingCodes.PortionZero);
        refusal.Member.ShouldBe("cuts[0].loadedGrams");
    }

    /// <summary>docs/science/recovery.md, worked number: (0.53 + 19.20) g of 20 g.</summary>
    [Fact]
    public void Recovery_with_a_collector_is_residue_and_fines_over_the_portion()
    {
        var request = Requests.Of(Procedure.SeparatePortions, Requests.Cut(63m, 300m, 320m, 300.53m)) with
        {
            Collected = Mass.FromGrams(19.2m),
            Settings = new EvaluationSettings { MinimumRecoveryPercent = 98.7m },
        };
        request.Result().RecoveryPercent.ShouldBe(Requests.Percent(98.65m));
        request.Result().Findings.Select(finding => finding.Code).ShouldBe([FindingCodes.RecoveryLow, FindingCodes.RecoveryIsLowerBound]);
    }

    /// <summary>docs/science/monotone-repair.md, worked number.</summary>
    [Fact]
    public void Points_that_cross_are_pooled_for_the_percentiles_and_left_in_the_table()
    {
        var result = Requests.Of(
            Procedure.SeparatePortions,
            Requests.Cut(32m, 300m, 310m, 306m),
            Requests.Cut(45m, 300m, 310m, 304.6m),
            Requests.Cut(53m, 300m, 310m, 304.8m),
            Requests.Cut(63m, 300m, 310m, 302m)).Result();

        result.Passing(45m).ShouldBe(Requests.Percent(54m));
        result.Passing(53m).ShouldBe(Requests.Percent(52m));
        result.Curve.Points.Select(point => point.PassingPercent).ShouldBe(
            [Requests.Percent(40m), Requests.Percent(53m), Requests.Percent(53m), Requests.Percent(80m)]);
        result.Fractions.ShouldAllBe(fraction => fraction.Percent >= Ratio.Zero);
        result.Findings.Select(finding => (finding.Code, finding.Severity)).ShouldBe(
        [
            (FindingCodes.NotMonotone, FindingSeverity.Finding),
            (FindingCodes.CurveRepaired, FindingSeverity.Note),
        ]);
        result.Findings[0].Message.ShouldContain("not monotone between 45 µm and 53 µm: 54.00 and 52.00 %");
        result.Percentiles.Single(percentile => percentile.Percent == 50m).Relation.ShouldBe(Relation.Equal);
    }

    [Fact]
    public void A_crossing_that_the_weighings_explain_is_only_noted()
    {
        var result = (Requests.Of(
            Procedure.SeparatePortions,
            Requests.Cut(45m, 300m, 310m, 304.600m),
            Requests.Cut(53m, 300m, 310m, 304.601m)) with
        {
            WeighingStandardUncertainty = Mass.FromGrams(0.001m),
        }).Result();
        result.Findings.ShouldContain(finding => finding.Code == FindingCodes.NotMonotone && finding.Severity == FindingSeverity.Note);
    }
}
