using ParticleLims.Analysis.Conformity;
using ParticleLims.Analysis.Distributions;
using ParticleLims.Analysis.Findings;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Analysis.Uncertainty;
using ParticleLims.Analysis.Weighings;

namespace ParticleLims.Analysis.Tests;

public sealed class EngineRefusalTests
{
    private static readonly EvaluationRequest Two = Requests.Given((45m, 50m), (63m, 97m));

    [Fact]
    public void Fewer_than_one_cut_is_refused() =>
        Requests.Of(Procedure.SeparatePortions).Refusal().ShouldBe(new Finding
        {
            Code = FindingCodes.NoCuts,
            Severity = FindingSeverity.Refusal,
            Message = "There is no cut: an evaluation needs at least one sieve.",
            Member = "cuts",
        });

    [Fact]
    public void More_cuts_than_an_evaluation_takes_are_refused() =>
        Requests.Given(Enumerable.Range(1, 101).Select(i => ((decimal)i, 50m)).ToArray()).Refusal().Code.ShouldBe(FindingCodes.TooMany);

    [Fact]
    public void An_aperture_twice_is_refused()
    {
        var refusal = Requests.Given((45m, 50m), (63m, 97m), (45.000m, 51m)).Refusal();
        refusal.Code.ShouldBe(FindingCodes.ApertureTwice);
        refusal.Member.ShouldBe("cuts[2].apertureMicrometres");
        refusal.Message.ShouldContain("45 µm");
    }

    [Fact]
    public void A_cut_without_an_aperture_is_refused() =>
        (Two with { Cuts = [new CutInput { Aperture = default, PassingPercent = 1m }] }).Refusal().Code.ShouldBe(FindingCodes.ApertureMissing);

    [Fact]
    public void An_aperture_beyond_one_metre_is_refused() =>
        (Two with { Cuts = [new CutInput { Aperture = Aperture.FromNanometres(1_000_000_001), PassingPercent = 1m }] })
            .Refusal().Code.ShouldBe(FindingCodes.ApertureTooLarge);

    [Fact]
    public void A_negative_and_an_impossible_mass_are_refused()
    {
        Requests.Of(Procedure.SeparatePortions, Requests.Cut(63m, -300m, 320m, 300.5m)).Refusal().Code.ShouldBe(FindingCodes.MassNegative);
        Requests.Of(Procedure.SeparatePortions, Requests.Cut(63m, 300m, 1_000_001m, 300.5m)).Refusal().Code.ShouldBe(FindingCodes.MassTooLarge);
    }

    [Fact]
    public void Every_missing_mass_is_named_at_once()
    {
        var cut = new CutInput { Aperture = Aperture.FromMicrometres(63m) };
        Requests.Of(Procedure.SeparatePortions, cut).Refusals().Select(finding => (finding.Code, finding.Member)).ShouldBe(
        [
            (FindingCodes.MassMissing, "cuts[0].emptyGrams"),
            (FindingCodes.MassMissing, "cuts[0].afterGrams"),
            (FindingCodes.MassMissing, "cuts[0].loadedGrams"),
        ]);
    }

    [Fact]
    public void What_has_no_meaning_for_the_procedure_is_refused()
    {
        (Two with { Portion = Mass.FromGrams(50m) }).Refusal().Member.ShouldBe("portionGrams");
        (Two with { Collected = Mass.FromGrams(50m) }).Refusal().Member.ShouldBe("collectedGrams");
        (Two with { Cuts = [Requests.Passing(45m, 50m) with { Empty = Mass.FromGrams(1m) }] }).Refusal().Member.ShouldBe("cuts[0].emptyGrams");
        var weighed = Requests.Of(Procedure.SeparatePortions, Requests.Cut(63m, 300m, 320m, 300.5m) with { PassingPercent = 3m });
        weighed.Refusal().Member.ShouldBe("cuts[0].passingPercent");
    }

    [Fact]
    public void A_given_distribution_needs_percentages_from_0_to_100()
    {
        (Two with { Cuts = [new CutInput { Aperture = Aperture.FromMicrometres(45m) }] }).Refusal().Code.ShouldBe(FindingCodes.PassingMissing);
        Requests.Given((45m, 100.1m)).Refusal().Code.ShouldBe(FindingCodes.PercentOutsideRange);
        Requests.Given((45m, -0.1m)).Refusal().Code.ShouldBe(FindingCodes.PercentOutsideRange);
    }

    [Fact]
    public void A_percentile_outside_0_to_100_is_refused_where_it_stands()
    {
        var request = Two with { Settings = new EvaluationSettings { Percentiles = [50m, 100m] } };
        request.Refusal().Member.ShouldBe("settings.percentiles[1]");
    }

    [Fact]
    public void A_choice_that_has_no_name_is_refused()
    {
        (Two with { Procedure = (Procedure)9 }).Refusal().Member.ShouldBe("procedure");
        (Two with { Settings = new EvaluationSettings { Interpolation = (Interpolation)9 } }).Refusal().Code.ShouldBe(FindingCodes.UnknownChoice);
    }

    [Fact]
    public void Limits_that_cannot_be_judged_are_refused()
    {
        Codes(new LimitInput { Characteristic = Characteristic.Percentile, Lower = 1m }).ShouldBe([FindingCodes.LimitIncomplete]);
        Codes(new LimitInput { Characteristic = Characteristic.Passing, Lower = 1m }).ShouldBe([FindingCodes.LimitIncomplete]);
        Codes(new LimitInput { Characteristic = Characteristic.Span }).ShouldBe([FindingCodes.LimitBounds]);
        Codes(new LimitInput { Characteristic = Characteristic.Span, Lower = 2m, Upper = 1m }).ShouldBe([FindingCodes.LimitBounds]);
        Codes(new LimitInput { Characteristic = Characteristic.Span, Lower = 2m, Percent = 50m }).ShouldBe([FindingCodes.NotApplicable]);
        Codes(new LimitInput { Characteristic = Characteristic.Span, Lower = 2m, Digits = 10 }).ShouldBe([FindingCodes.DigitsOutsideRange]);
        Codes(new LimitInput { Characteristic = (Characteristic)99, Lower = 2m }).ShouldBe([FindingCodes.UnknownChoice]);
    }

    [Fact]
    public void What_a_limit_needs_of_the_request_is_asked_for()
    {
        Refused(Two with { Limits = [new LimitInput { Characteristic = Characteristic.Span, Lower = 1m, Rule = DecisionRule.Guarded }] }, FindingCodes.UncertaintyMissing, "limits[0].rule");
        Refused(Two with { Limits = [new LimitInput { Characteristic = Characteristic.Span, Lower = 1m, Rule = DecisionRule.FourState }] }, FindingCodes.UncertaintyMissing, "limits[0].rule");
        Refused(Two with { Limits = [new LimitInput { Characteristic = Characteristic.SpecificSurface, Lower = 1m }] }, FindingCodes.LimitIncomplete, "limits[0].characteristic");
        Refused(Two with { Limits = [new LimitInput { Characteristic = Characteristic.Span, Lower = 1m, GuardFactor = -1m }] }, FindingCodes.QuantityOutsideRange, "limits[0].guardFactor");
        Refused(Two with { Limits = [new LimitInput { Characteristic = Characteristic.Span, Lower = 1m, GuardFactor = 11m }] }, FindingCodes.QuantityOutsideRange, "limits[0].guardFactor");
    }

    [Fact]
    public void Uncertainties_out_of_range_are_refused_where_they_stand()
    {
        OfInput(new UncertaintyInput { BalanceRepeatability = Mass.FromMicrograms(-1) }, "balanceRepeatabilityGrams");
        OfInput(new UncertaintyInput { Readability = Mass.FromGrams(1_001m) }, "readabilityGrams");
        OfInput(new UncertaintyInput { Linearity = Mass.FromMicrograms(-1) }, "linearityGrams");
        OfInput(new UncertaintyInput { EmptyDrift = Mass.FromMicrograms(-1) }, "emptyDriftGrams");
        OfInput(new UncertaintyInput { PortionStandardUncertaintyPercent = 51m }, "portionStandardUncertaintyPercent");
        OfInput(new UncertaintyInput { Coverage = 0.49m }, "coverage");
        OfInput(new UncertaintyInput { Coverage = 1m }, "coverage");
        OfInput(new UncertaintyInput { Trials = 9_999 }, "trials");
        OfInput(new UncertaintyInput { Trials = 10_000_001 }, "trials");
        OfInput(new UncertaintyInput { StableDigits = 3 }, "stableDigits");
        Refused(Two with { Uncertainty = new UncertaintyInput { Method = (UncertaintyMethod)9 } }, FindingCodes.UnknownChoice, "uncertainty.method");
        var many = new EvaluationSettings { Percentiles = [.. Enumerable.Range(1, 90).Select(percent => (decimal)percent)] };
        Refused(Two with { Settings = many, Uncertainty = new UncertaintyInput { Method = UncertaintyMethod.MonteCarlo, Trials = 10_000_000 } }, FindingCodes.TooMany, "uncertainty.trials");
        Refused(
            Two with { Cuts = [Requests.Passing(45m, 50m) with { ApertureStandardUncertainty = Aperture.FromMicrometres(16m) }] },
            FindingCodes.QuantityOutsideRange, "cuts[0].apertureStandardUncertaintyMicrometres");
        Refused(Two with { Cuts = [Requests.Passing(45m, 50m) with { LastIntervalChange = Mass.Zero }] }, FindingCodes.NotApplicable, "cuts[0].lastIntervalChangeGrams");
    }

    [Fact]
    public void Effective_apertures_must_rise_as_the_sieves_do()
    {
        var cuts = new[] { Requests.Passing(45m, 50m) with { EffectiveAperture = Aperture.FromMicrometres(54m) }, Requests.Passing(53m, 60m) };
        var refusal = (Two with { Cuts = cuts, Settings = new EvaluationSettings { Apertures = ApertureChoice.Effective } }).Refusal();
        (refusal.Code, refusal.Member).ShouldBe((FindingCodes.ApertureOrder, "cuts[1].effectiveApertureMicrometres"));
    }

    [Fact]
    public void An_effective_aperture_is_used_where_the_settings_say_so_and_the_nominal_one_where_there_is_none()
    {
        var cuts = new[] { Requests.Passing(45m, 40m) with { EffectiveAperture = Aperture.FromMicrometres(44.6m) }, Requests.Passing(63m, 60m) };
        var result = (Two with { Cuts = cuts, Settings = new EvaluationSettings { Apertures = ApertureChoice.Effective, Percentiles = [40m] } }).Result();
        result.Percentiles[0].Micrometres.ShouldBe(44.6);
        result.Cuts[0].Aperture.ShouldBe(Aperture.FromMicrometres(45m));
        var note = result.Findings.Single(finding => finding.Code == FindingCodes.EffectiveApertureMissing);
        note.Member.ShouldBe("cuts[1].effectiveApertureMicrometres");
    }

    [Fact]
    public void A_version_without_uncertainties_is_not_asked_for_them() =>
        Should.Throw<ArgumentException>(() => Engine.Evaluate(Two with { Uncertainty = new UncertaintyInput() }, "1.1.0"));

    [Fact]
    public void Uncertainties_of_percentages_are_given_for_each_cut_or_for_none()
    {
        var (sure, unsure) = (Requests.Passing(63m, 97m), Requests.Passing(45m, 50m) with { PassingStandardUncertaintyPercent = 0.3m });
        (Two with { Cuts = [unsure, sure] }).Refusal().Member.ShouldBe("cuts[1].passingStandardUncertaintyPercent");
        (Two with { Cuts = [unsure with { PassingStandardUncertaintyPercent = 0m }] }).Refusal().Code.ShouldBe(FindingCodes.QuantityOutsideRange);
        (Two with { Cuts = [unsure with { PassingStandardUncertaintyPercent = 101m }] }).Refusal().Code.ShouldBe(FindingCodes.QuantityOutsideRange);
        var weighed = Requests.Of(Procedure.SeparatePortions, Requests.Cut(63m, 300m, 320m, 300.5m) with { PassingStandardUncertaintyPercent = 0.1m });
        weighed.Refusal().Code.ShouldBe(FindingCodes.NotApplicable);
        (Two with { Cuts = [unsure] }).Result().Cuts[0].PassingStandardUncertaintyPercent.ShouldBe(0.3);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(-1)]
    [InlineData(101)]
    public void A_density_or_shape_factor_that_no_powder_has_is_refused(int value)
    {
        (Two with { Settings = new EvaluationSettings { TrueDensityGramsPerCubicCentimetre = value } }).Refusal().Member.ShouldBe("settings.trueDensityGramsPerCubicCentimetre");
        (Two with { Settings = new EvaluationSettings { ShapeFactor = value } }).Refusal().Member.ShouldBe("settings.shapeFactor");
    }

    [Fact]
    public void A_version_that_never_was_cannot_be_repeated() =>
        Should.Throw<ArgumentException>(() => Engine.Evaluate(Two, "0.9.0"));

    [Fact]
    public void An_effective_aperture_beside_the_nominal_setting_is_noted()
    {
        var cut = Requests.Passing(45m, 50m) with { EffectiveAperture = Aperture.FromMicrometres(44.6m) };
        var result = (Two with { Cuts = [cut] }).Result();
        result.Findings.ShouldHaveSingleItem().Code.ShouldBe(FindingCodes.EffectiveApertureUnused);
        result.Cuts[0].UsedAperture.ShouldBe(Aperture.FromMicrometres(45m));
    }

    [Fact]
    public void A_request_without_its_lists_is_a_programming_error()
    {
        Should.Throw<ArgumentNullException>(() => Engine.Evaluate(null!));
        Should.Throw<ArgumentException>(() => Engine.Evaluate(Two with { Cuts = null! }));
    }

    private static IEnumerable<string> Codes(LimitInput limit) => (Two with { Limits = [limit] }).Refusals().Select(finding => finding.Code);

    private static void OfInput(UncertaintyInput input, string member) => Refused(Two with { Uncertainty = input }, FindingCodes.QuantityOutsideRange, "uncertainty." + member);

    private static void Refused(EvaluationRequest request, string code, string member)
    {
        var refusal = request.Refusal();
        (refusal.Code, refusal.Member).ShouldBe((code, member));
    }
}
