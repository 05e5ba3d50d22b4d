using CsCheck;
using ParticleLims.Analysis.Conformity;
using ParticleLims.Analysis.Findings;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Analysis.Uncertainty;
using ParticleLims.Analysis.Weighings;

namespace ParticleLims.Analysis.Tests.Uncertainty;

public sealed class CharacteristicUncertaintyTests
{
    private static readonly UncertaintyInput Balance = new() { BalanceRepeatability = Mass.FromGrams(0.002m), Readability = Mass.FromGrams(0.001m) };

    /// <summary>
    /// By hand: D50 between 40 % at 32 µm and 60 % at 45 µm, straight in ln x: ln D50 = ln 32 + (50 - Q1)/(Q2 - Q1) ln(45/32), so d ln D50/dQ1 = d ln D50/dQ2 = -ln(45/32)/40 per percent and
    /// d ln D50/d ln x1 = d ln D50/d ln x2 = 1/2 (GUM, JCGM 100:2008, 5.1.2).
    /// </summary>
    [Fact]
    public void A_median_between_two_points_has_the_uncertainty_computed_by_hand()
    {
        var request = Table((32m, 40m, 0.3m, 0.7m), (45m, 60m, 0.4m, 0.9m)) with { Settings = new EvaluationSettings { Percentiles = [50m] } };
        var uncertainty = request.Result().PercentileUncertainties[0].ShouldNotBeNull();
        var (median, slope) = (Math.Sqrt(32 * 45), Math.Log(45.0 / 32) / 40);
        var relative = Math.Sqrt((slope * slope * ((0.3 * 0.3) + (0.4 * 0.4))) + (0.25 * ((0.7 / 32 * 0.7 / 32) + (0.9 / 45 * 0.9 / 45))));
        uncertainty.StandardUncertainty.ShouldBe(median * relative, 1e-8);
        uncertainty.SharedStandardUncertainty.ShouldBe(median * Math.Sqrt(0.25 * ((0.7 / 32 * 0.7 / 32) + (0.9 / 45 * 0.9 / 45))), 1e-8);
        uncertainty.Expanded.ShouldBe(1.959963984540054 * uncertainty.StandardUncertainty, 1e-12);
        (uncertainty.High - uncertainty.Low).ShouldBe(2 * uncertainty.Expanded, 1e-12);
        uncertainty.Budget.Count.ShouldBe(4);
        uncertainty.Budget.Sum(entry => entry.SharePercent).ShouldBe(100, 1e-9);
        uncertainty.Budget[0].Sensitivity.ShouldNotBeNull().ShouldBe(median / 32 / 2, 1e-6);
    }

    [Fact]
    public void A_percentage_at_a_measured_aperture_is_as_uncertain_as_the_cut_and_no_aperture_acts_on_it()
    {
        var limit = new LimitInput { Characteristic = Characteristic.Retained, Aperture = Aperture.FromMicrometres(45m), Upper = 50m };
        var verdict = (Table((32m, 40m, 0.3m, 0.7m), (45m, 60m, 0.4m, 0.9m)) with { Limits = [limit] }).Result().Verdicts[0];
        verdict.Uncertainty.ShouldNotBeNull().StandardUncertainty.ShouldBe(0.4, 1e-12);
        verdict.Uncertainty.SharedStandardUncertainty.ShouldBe(0);
    }

    [Fact]
    public void A_size_outside_the_apertures_has_no_uncertainty()
    {
        var request = Table((32m, 40m, 0.3m, 0.7m), (45m, 60m, 0.4m, 0.9m)) with { Settings = new EvaluationSettings { Percentiles = [10m, 90m] } };
        request.Result().PercentileUncertainties.ShouldAllBe(uncertainty => uncertainty == null);
    }

    [Fact]
    public void A_size_near_the_end_of_the_apertures_is_told()
    {
        var request = Table((32m, 40m, 1m, 0.7m), (45m, 60m, 1m, 0.9m)) with { Settings = new EvaluationSettings { Percentiles = [41m] } };
        var result = request.Result();
        result.PercentileUncertainties[0].ShouldNotBeNull().BelowFinestPercent.ShouldBe(15.865525, 1e-4);
        result.Findings.ShouldContain(finding => finding.Code == FindingCodes.SizeNearEnd);
    }

    [Fact]
    public void Without_an_uncertainty_of_any_aperture_the_result_says_so() =>
        (Requests.Of(Procedure.SeparatePortions, Requests.Cut(45m, 300m, 310m, 304m)) with { Uncertainty = Balance }).Result()
            .Findings.ShouldContain(finding => finding.Code == FindingCodes.ApertureUncertaintyMissing);

    /// <summary>Every share of every budget, for every procedure and interpolation.</summary>
    [Fact]
    public void The_shares_of_a_budget_add_up_to_the_whole() => RandomUncertainties.Request.Sample(request =>
    {
        foreach (var uncertainty in request.Result().PercentileUncertainties.OfType<CharacteristicUncertainty>().Where(one => one.StandardUncertainty > 0))
        {
            uncertainty.Budget.Sum(entry => entry.SharePercent).ShouldBe(100, 1e-6);
            Math.Sqrt(uncertainty.Budget.Sum(entry => entry.Contribution * entry.Contribution)).ShouldBe(uncertainty.StandardUncertainty, uncertainty.StandardUncertainty * 1e-9);
        }
    });

    /// <summary>The same powder on sieves twice as coarse: sizes and their uncertainties double.</summary>
    [Fact]
    public void Scaling_all_apertures_scales_all_uncertainties_of_sizes() => RandomUncertainties.Request.Where(request => request.Cuts.All(cut => cut.Aperture.Nanometres < 400_000_000)).Sample(request =>
    {
        var scaled = request with
        {
            Cuts = request.Cuts.Select(cut => cut with
            {
                Aperture = Aperture.FromNanometres(2 * cut.Aperture.Nanometres),
                ApertureStandardUncertainty = cut.ApertureStandardUncertainty is { } u ? Aperture.FromNanometres(2 * u.Nanometres) : null,
            }).ToList(),
        };
        foreach (var (one, two) in request.Result().PercentileUncertainties.Zip(scaled.Result().PercentileUncertainties))
        {
            (two is null).ShouldBe(one is null);
            if (one is { } uncertainty)
            {
                two!.StandardUncertainty.ShouldBe(2 * uncertainty.StandardUncertainty, uncertainty.StandardUncertainty * 1e-4 + 1e-9);
            }
        }
    });

    /// <summary>
    /// Where the model is nearly straight over the inputs' spread and nothing lies at an end, both methods agree: in 40 000 trials u within 4 % (five standard errors are 1.8 %) and the ends within
    /// a tenth of U.
    /// </summary>
    [Fact]
    public void Trials_agree_with_the_law_of_propagation_where_the_curve_is_nearly_straight() => Smooth.Sample(
        request =>
        {
            var analytic = request.Result();
            var trials = (request with { Uncertainty = request.Uncertainty! with { Method = UncertaintyMethod.MonteCarlo, Trials = 40_000 } }).Result();
            foreach (var (one, other) in analytic.PercentileUncertainties.Zip(trials.PercentileUncertainties))
            {
                var (u, t) = (one.ShouldNotBeNull(), other.ShouldNotBeNull());
                t.StandardUncertainty.ShouldBe(u.StandardUncertainty, 0.04 * u.StandardUncertainty);
                t.Low.ShouldBe(u.Low, 0.1 * u.Expanded);
                t.High.ShouldBe(u.High, 0.1 * u.Expanded);
                t.Trials.ShouldNotBeNull().AnalyticStandardUncertainty.ShouldBe(u.StandardUncertainty);
            }
        },
        iter: 40);

    [Fact]
    public void The_answer_by_trials_is_the_same_to_the_last_bit_for_any_number_of_threads()
    {
        var request = Air with { Uncertainty = Balance with { Method = UncertaintyMethod.MonteCarlo, Trials = 50_000 } };
        var alone = request.Result().ToCanonicalText();
        var together = Engine.Evaluate(request, Engine.Version, (count, work) => Parallel.For(0, count, work)).ShouldBeOfType<Evaluated>().Result.ToCanonicalText();
        together.ShouldBe(alone);
        (request with { Uncertainty = request.Uncertainty with { Seed = 2 } }).Result().ToCanonicalText().ShouldNotBe(alone);
    }

    /// <summary>JCGM 101:2008, 8.1.2: both ends within the numerical tolerance of two digits.</summary>
    [Fact]
    public void The_law_of_propagation_is_validated_for_an_ordinary_run_and_not_where_a_residue_is_near_nothing()
    {
        var trials = Balance with { Method = UncertaintyMethod.MonteCarlo, Trials = 1_000_000 };
        var ordinary = (Air with { Uncertainty = trials, Settings = new EvaluationSettings { Percentiles = [50m] } }).Result();
        ordinary.PercentileUncertainties[0].ShouldNotBeNull().Trials.ShouldNotBeNull().IsAnalyticValidated.ShouldBeTrue();
        ordinary.Uncertainty.ShouldNotBeNull().Trials.ShouldBe(1_000_000);

        var limit = new LimitInput { Characteristic = Characteristic.Passing, Aperture = Aperture.FromMicrometres(45m), Lower = 99m };
        var nothing = Requests.Of(Procedure.SeparatePortions, Requests.Cut(45m, 300m, 310m, 300.001m)) with { Uncertainty = trials, Limits = [limit] };
        nothing.Result().Verdicts[0].Uncertainty.ShouldNotBeNull().Trials.ShouldNotBeNull().IsAnalyticValidated.ShouldBeFalse();
    }

    [Fact]
    public void Few_trials_are_told() =>
        (Air with { Uncertainty = Balance with { Method = UncertaintyMethod.MonteCarlo, Trials = 10_000 } }).Result().Findings.ShouldContain(finding => finding.Code == FindingCodes.FewTrials);

    private static readonly EvaluationRequest Air = Requests.Of(
        Procedure.SeparatePortions,
        Requests.Cut(32m, 300m, 310m, 306.1m), Requests.Cut(45m, 300m, 310m, 304.2m), Requests.Cut(63m, 300m, 310m, 301.7m), Requests.Cut(90m, 300m, 310m, 300.4m)) with
    {
        Settings = new EvaluationSettings { Percentiles = [50m, 90m] },
    };

    /// <summary>Six sieves, 10 to 90 % passing in steps that are wide against the uncertainties.</summary>
    private static readonly Gen<EvaluationRequest> Smooth =
        Gen.Select(Gen.Int[0, 400].Array[6], Gen.Int[1, 3].Select(procedure => (Procedure)(procedure - 1)), RandomRequests.CurveRule, Gen.Int[1, 8]).Select((shifts, procedure, rule, perMille) =>
        {
            decimal[] sizes = [20m, 32m, 45m, 63m, 90m, 125m];
            var passing = shifts.Select((shift, i) => (10_000 + (16_000 * i) + (shift * 10)) / 1_000m).ToArray();
            var cuts = sizes.Select((size, i) => Cut(procedure, size, passing, i) with { ApertureStandardUncertainty = Aperture.FromMicrometres(Math.Round(size * perMille / 1_000m, 3)) }).ToArray();
            return Requests.Of(procedure, cuts) with
            {
                Receiver = procedure == Procedure.NestedStack ? new ReceiverInput { Empty = Mass.FromGrams(400m), After = Mass.FromGrams(400m + (passing[0] / 2)) } : null,
                Uncertainty = new UncertaintyInput { BalanceRepeatability = Mass.FromGrams(0.02m), Readability = Mass.FromGrams(0.01m), PortionStandardUncertaintyPercent = 0.3m },
                Settings = new EvaluationSettings { Interpolation = rule, Percentiles = [20m, 50m, 80m] },
            };
        });

    /// <summary>50 g in all, on a tare of 300 g.</summary>
    private static CutInput Cut(Procedure procedure, decimal size, decimal[] passing, int i) => procedure == Procedure.NestedStack
        ? Requests.Cut(size, 300m, null, 300m + (((i + 1 < passing.Length ? passing[i + 1] : 100m) - passing[i]) / 2))
        : Requests.Cut(size, 300m, procedure == Procedure.SeparatePortions || i == 0 ? 350m : null, 300m + ((100m - passing[i]) / 2));

    private static EvaluationRequest Table(params (decimal Size, decimal Percent, decimal U, decimal ApertureU)[] points) =>
        Requests.Of(Procedure.GivenDistribution, points.Select(point => Requests.Passing(point.Size, point.Percent) with
        {
            PassingStandardUncertaintyPercent = point.U, ApertureStandardUncertainty = Aperture.FromMicrometres(point.ApertureU),
        }).ToArray()) with
        {
            Uncertainty = new UncertaintyInput(),
        };
}
