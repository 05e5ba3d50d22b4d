using CsCheck;
using ParticleLims.Analysis.Findings;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Analysis.Uncertainty;
using ParticleLims.Analysis.Weighings;

namespace ParticleLims.Analysis.Tests.Uncertainty;

public sealed class PassingUncertaintyTests
{
    private static readonly UncertaintyInput TwoMilligrams = new() { BalanceRepeatability = Mass.FromGrams(0.002m), Readability = Mass.FromGrams(0.001m) };

    /// <summary>u²(R) = (u_w/m)² (1 + (1 - R)² + R²) with u_w² = s² + d²/12, by hand: the law of propagation for R = (a - t)/(b - t) (GUM, JCGM 100:2008, 5.1.2).</summary>
    [Fact]
    public void A_separate_portion_has_the_uncertainty_of_a_quotient_with_a_shared_tare()
    {
        var cut = (Requests.Of(Procedure.SeparatePortions, Requests.Cut(45m, 312.345m, 324.345m, 318.001m)) with { Uncertainty = TwoMilligrams }).Result().Cuts[0];
        var (u2, m, r) = ((0.002 * 0.002) + (0.001 * 0.001 / 12), 12.0, 5.656 / 12);
        cut.PassingStandardUncertaintyPercent.ShouldNotBeNull().ShouldBe(100 * Math.Sqrt(u2 / (m * m) * (1 + ((1 - r) * (1 - r)) + (r * r))), 1e-12);
    }

    /// <summary>R_2 = (a_2 - t_2)/(b_1 - t_1): u²(R_2) = (u_w/m0)² (2 + 2 R_2²).</summary>
    [Fact]
    public void A_carried_residue_has_a_test_portion_with_a_tare_of_its_own()
    {
        var result = (Requests.Of(Procedure.CarriedResidue, Requests.Cut(32m, 300m, 325m, 315m), Requests.Cut(63m, 310m, null, 312.5m)) with { Uncertainty = TwoMilligrams }).Result();
        var u2 = ((0.002 * 0.002) + (0.001 * 0.001 / 12)) / (25 * 25);
        result.Cuts[1].PassingStandardUncertaintyPercent.ShouldNotBeNull().ShouldBe(100 * Math.Sqrt(u2 * (2 + (2 * 0.1 * 0.1))), 1e-12);
        result.Cuts[0].PassingStandardUncertaintyPercent.ShouldNotBeNull().ShouldBe(100 * Math.Sqrt(u2 * (1 + (0.4 * 0.4) + (0.6 * 0.6))), 1e-12);
    }

    /// <summary>
    /// Each sensitivity is held against the engine itself: the same run with one weighing 10 mg heavier and 10 mg lighter. A run's formulas are quotients, so the two agree to (10 mg/mass)².
    /// </summary>
    [Fact]
    public void The_sensitivities_are_those_of_the_engine_itself() =>
        Gen.Select(RandomRequests.Sensible.Where(Weighs), Gen.Bool, Gen.Bool).Sample((random, putBack, ofPortion) =>
        {
            var settings = random.Settings with { TransferLoss = putBack ? TransferLossRule.PutBackInProportion : TransferLossRule.CountAsPassing };
            var request = random with { Uncertainty = TwoMilligrams, WeighingStandardUncertainty = Mass.FromGrams(1m), Settings = settings };
            if (ofPortion && request.Procedure == Procedure.NestedStack)
            {
                request = request with { Portion = Whole(request), Settings = settings with { Basis = PercentBasis.Portion } };
            }

            var model = request.Result().Evaluation.ShouldNotBeNull().Model;
            for (var k = 0; k < model.Inputs.Inputs.Count; k++)
            {
                Compare(request, model, k);
            }
        });

    /// <summary>Weighings in grams or in units a thousand times as small: the percentages and their uncertainties stay.</summary>
    [Fact]
    public void The_covariances_are_symmetric_and_no_correlation_is_greater_than_one() =>
        RandomUncertainties.Request.Sample(request =>
        {
            var model = request.Result().Evaluation.ShouldNotBeNull().Model;
            var n = model.Percent.Length;
            for (var i = 0; i < n; i++)
            {
                for (var j = 0; j < n; j++)
                {
                    var (ij, ji, ii, jj) = (model.Covariance[(i * n) + j], model.Covariance[(j * n) + i], model.Covariance[(i * n) + i], model.Covariance[(j * n) + j]);
                    ij.ShouldBe(ji, 1e-12 * Math.Sqrt(ii * jj) + 1e-300);
                    Math.Abs(ij).ShouldBeLessThanOrEqualTo((Math.Sqrt(ii * jj) * (1 + 1e-9)) + 1e-300);
                }
            }
        });

    /// <summary>Taking the portion: near 50 % what was stated, less towards the ends, and what two shares of one portion have in common.</summary>
    [Fact]
    public void Taking_the_portion_spreads_as_shares_of_a_count_do()
    {
        var input = new UncertaintyInput { PortionStandardUncertaintyPercent = 1m };
        var cuts = new[] { Requests.Cut(32m, 300m, 310m, 308m), Requests.Cut(45m, 300m, null, 305m), Requests.Cut(63m, 300m, null, 300m) };
        var result = (Requests.Of(Procedure.CarriedResidue, cuts) with { Uncertainty = input }).Result();
        var covariance = result.Evaluation.ShouldNotBeNull().Model.Covariance;
        covariance[0].ShouldBe(4 * 0.2 * 0.8, 1e-12);
        covariance[4].ShouldBe(1, 1e-12);
        covariance[1].ShouldBe(4 * 0.2 * 0.5, 1e-12);
        covariance[8].ShouldBe(0);
    }

    private static bool Weighs(EvaluationRequest request) => request.Procedure != Procedure.GivenDistribution && Enough(request);

    /// <summary>Where a mass is near zero the engine clamps and the quotients are steep; the formulas themselves are meant here.</summary>
    private static bool Enough(EvaluationRequest request) => Requests.Result(request).Cuts.All(cut => cut.Portion >= Mass.FromGrams(1m) && cut.Residue >= Mass.FromGrams(0.1m) && Mass.FromGrams(0.1m) <= cut.Portion - cut.Residue);

    private static Mass Whole(EvaluationRequest request) =>
        request.Cuts.Aggregate(Mass.FromGrams(20m), (sum, cut) => sum + (cut.After.GetValueOrDefault() - cut.Empty.GetValueOrDefault()));

    private static void Compare(EvaluationRequest request, MeasurementModel model, int input)
    {
        var (above, below) = (Moved(request, model, input, 10_000), Moved(request, model, input, -10_000));
        if (Engine.Evaluate(above) is not Evaluated { Result: var high } || Engine.Evaluate(below) is not Evaluated { Result: var low })
        {
            return;
        }

        // At a clamp the engine's curve has a corner, where a difference over both sides is no derivative.
        if (high.Findings.Concat(low.Findings).Any(finding => finding.Code == FindingCodes.ResidueClamped))
        {
            return;
        }

        for (var cut = 0; cut < model.Percent.Length; cut++)
        {
            var measured = (high.Cuts[cut].PassingPercent - low.Cuts[cut].PassingPercent).ToDouble() / 0.02;
            model.Sensitivities.Row(cut)[input].ShouldBe(measured, (Math.Abs(measured) * 0.02) + 1e-3, $"{model.Inputs.Inputs[input]} on cut {cut}");
        }
    }

    private static EvaluationRequest Moved(EvaluationRequest request, MeasurementModel model, int input, long micrograms)
    {
        var (moved, by) = (model.Inputs.Inputs[input], Mass.FromMicrograms(micrograms));
        if (moved.Cut < 0)
        {
            return moved.Kind switch
            {
                InputKind.TestPortion => request with { Portion = request.Portion + by },
                InputKind.EmptyReceiver => request with { Receiver = request.Receiver! with { Empty = request.Receiver.Empty + by } },
                _ => request with { Receiver = request.Receiver! with { After = request.Receiver.After + by } },
            };
        }

        var index = model.Cuts[moved.Cut].Index;
        return request with
        {
            Cuts = request.Cuts.Select((cut, i) => i != index ? cut : moved.Kind switch
            {
                InputKind.EmptySieve => cut with { Empty = cut.Empty + by },
                InputKind.LoadedSieve => cut with { Loaded = cut.Loaded + by },
                _ => cut with { After = cut.After + by },
            }).ToList(),
        };
    }
}
