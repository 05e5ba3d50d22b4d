using System.Globalization;
using CsCheck;
using ParticleLims.Analysis.Distributions;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Analysis.Weighings;

namespace ParticleLims.Analysis.Tests;

public sealed class EnginePropertyTests
{
    [Fact]
    public void Ten_thousand_requests_of_any_kind_are_answered_or_refused_without_an_exception_or_a_nan()
    {
        var answered = 0;
        RandomRequests.Any.Sample(
            request =>
            {
                if (Engine.Evaluate(request) is Evaluated evaluated)
                {
                    Interlocked.Increment(ref answered);
                    Numbers(evaluated.Result).ShouldAllBe(number => double.IsFinite(number));
                    evaluated.Result.Verdicts.Count.ShouldBe(request.Limits.Count);
                }
                else
                {
                    request.Refusals().ShouldAllBe(finding => finding.Member != null);
                }
            },
            iter: 10_000);
        answered.ShouldBeInRange(100, 9_900);
    }

    [Fact]
    public void Every_sensible_request_is_answered() =>
        RandomRequests.Sensible.Sample(request => Numbers(request.Result()).ShouldAllBe(number => double.IsFinite(number)));

    [Fact]
    public void The_same_request_gives_the_same_bits_in_every_culture() =>
        RandomRequests.Sensible.Sample(
            request =>
            {
                var first = request.Result().ToCanonicalText();
                var before = CultureInfo.CurrentCulture;
                CultureInfo.CurrentCulture = CultureInfo.GetCultureInfo("de-DE");
                var second = request.Result().ToCanonicalText();
                CultureInfo.CurrentCulture = before;
                second.ShouldBe(first);
            });

    /// <summary>
    /// What version 1.0.0 answered when it was released: what was stored then must come out of every later version. The doubles agree with mpmath 1.2.1
    /// (40 digits) to 14 significant digits.
    /// </summary>
    [Fact]
    public void The_bits_of_the_first_version_come_out_of_this_one()
    {
        var text = (Requests.Given((20m, 8.5m), (32m, 24.75m), (45m, 47.125m), (63m, 71m), (90m, 90.25m), (125m, 98m)) with
        {
            Settings = new EvaluationSettings { Percentiles = [10m, 50m, 90m] },
        }).Result("1.0.0").ToCanonicalText();
        text.ShouldBe(
            """
            engine 1.0.0
            cut 20000 20000 - - 183/2
            cut 32000 32000 - - 301/4
            cut 45000 45000 - - 423/8
            cut 63000 63000 - - 29/1
            cut 90000 90000 - - 39/4
            cut 125000 125000 - - 2/1
            point 20000 17/2 17/2
            point 32000 99/4 99/4
            point 45000 377/8 377/8
            point 63000 71/1 71/1
            point 90000 361/4 361/4
            point 125000 98/1 98/1
            recovery -
            percentile 10 Equal 20.886796730224113
            percentile 50 Equal 46.86073363957453
            percentile 90 Equal 89.58407127257978
            span Equal 1.4659880289270564
            model RosinRammler StraightLine 60.00174308797099 2.06414354590262 -8.45137486833762 1.7322882882125608 0.0944140294139762 0.9917008436228697 6 0

            """,
            StringCompareShould.IgnoreLineEndings);
    }

    /// <summary>What was stored by the first version is found again in the answer of this one, line for line.</summary>
    [Fact]
    public void Every_line_of_the_first_version_is_a_line_of_this_one() =>
        RandomRequests.Sensible.Sample(request =>
        {
            var (first, now) = (Lines(request.Result("1.0.0")), Lines(request.Result()));
            first[0].ShouldBe("engine 1.0.0");
            now[0].ShouldBe("engine " + Engine.Version);
            first.Skip(1).Except(now, StringComparer.Ordinal).ShouldBeEmpty();
            request.Result("1.0.0").Summary.ShouldBeNull();
        });

    [Fact]
    public void The_order_of_the_cuts_does_not_matter() =>
        Gen.Select(RandomRequests.Sensible, Gen.Int[0, 1000]).Sample((request, seed) =>
        {
            var shuffled = request.Cuts.OrderBy(cut => (cut.Aperture.Nanometres * 7919 + seed) % 1009).ToList();
            Numbers((request with { Cuts = shuffled }).Result()).ShouldBe(Numbers(request.Result()));
        });

    [Fact]
    public void Apertures_twice_as_coarse_make_sizes_twice_as_coarse() =>
        RandomRequests.Sensible.Sample(request =>
        {
            var coarser = request.Cuts.Select(cut => cut with { Aperture = Aperture.FromNanometres(2 * cut.Aperture.Nanometres) }).ToList();
            var (once, twice) = (request.Result(), (request with { Cuts = coarser }).Result());
            twice.Percentiles.Zip(once.Percentiles).ShouldAllBe(pair =>
                pair.First.Relation == pair.Second.Relation && Math.Abs(pair.First.Micrometres - (2 * pair.Second.Micrometres)) <= 1e-12 * pair.First.Micrometres);
            twice.Span.Value.ShouldBe(once.Span.Value, 1e-12 * (1 + once.Span.Value));
            twice.Cuts.Select(cut => cut.PassingPercent).ShouldBe(once.Cuts.Select(cut => cut.PassingPercent));
        });

    [Fact]
    public void The_same_mass_on_every_weighing_of_a_sieve_changes_nothing() =>
        Gen.Select(Gen.OneOf(RandomRequests.SeparatePortions, RandomRequests.CarriedResidue, RandomRequests.NestedStack), Gen.Long[1, 90_000_000])
            .Sample((request, micrograms) =>
            {
                var more = Mass.FromMicrograms(micrograms);
                var heavier = request.Cuts.Select(cut => cut with { Empty = cut.Empty + more, Loaded = cut.Loaded + more, After = cut.After + more }).ToList();
                Numbers((request with { Cuts = heavier }).Result()).ShouldBe(Numbers(request.Result()));
            });

    [Fact]
    public void One_cut_is_the_same_carried_or_separate() =>
        RandomRequests.SeparatePortions.Sample(request =>
        {
            var separate = request with { Cuts = [request.Cuts[0]] };
            var carried = separate with { Procedure = Procedure.CarriedResidue };
            carried.Result().ToCanonicalText().ShouldBe(separate.Result().ToCanonicalText());
        });

    [Fact]
    public void Percentiles_grow_with_their_percentage() =>
        RandomRequests.Sensible.Sample(request =>
        {
            var settings = request.Settings with { Percentiles = Enumerable.Range(1, 99).Select(percent => (decimal)percent).ToList() };
            var percentiles = (request with { Settings = settings }).Result().Percentiles;
            percentiles.Zip(percentiles.Skip(1)).ShouldAllBe(pair => pair.First.Micrometres <= pair.Second.Micrometres && Rank(pair.First) <= Rank(pair.Second));
        });

    private static string[] Lines(EvaluationResult result) => result.ToCanonicalText().Split('\n');

    private static int Rank(Percentile percentile) => percentile.Relation switch
    {
        Relation.Below => 0,
        Relation.Equal => 1,
        _ => 2,
    };

    private static List<double> Numbers(EvaluationResult result)
    {
        List<double> numbers = [result.Span.Value];
        numbers.AddRange(result.Cuts.Select(cut => cut.PassingPercent.ToDouble()));
        numbers.AddRange(result.Fractions.Select(fraction => fraction.Percent.ToDouble()));
        numbers.AddRange(result.Percentiles.Select(percentile => percentile.Micrometres));
        numbers.AddRange(result.Verdicts.Select(verdict => verdict.Value ?? 0));
        foreach (var model in result.Models)
        {
            numbers.AddRange([model.SizeMicrometres, model.Slope, model.Intercept, model.RSquared, model.SizeStandardError ?? 0, model.SlopeStandardError ?? 0]);
            numbers.AddRange([model.SizeSlopeCovariance ?? 0, model.ReducedChiSquare ?? 0, model.Aicc ?? 0, model.ShareBelowPercent ?? 0, model.ShareAbovePercent ?? 0]);
            numbers.AddRange([model.GeometricStandardDeviation ?? 0, model.GeometricStandardDeviationStandardError ?? 0, model.SauterMeanMicrometres ?? 0]);
            numbers.AddRange(model.Residuals.SelectMany(residual => new[] { residual.PassingPercent, residual.Minimised }));
        }

        numbers.AddRange(Numbers(result.Summary.ShouldNotBeNull()));
        numbers.AddRange(result.Fractions.SelectMany(fraction => new[] { fraction.DensityPerMicrometre ?? 0, fraction.LogarithmicDensity ?? 0 }));

        return numbers;
    }

    private static IEnumerable<double> Numbers(DistributionSummary summary) =>
    [
        summary.Mode?.ModeMicrometres ?? 0, summary.Uniformity?.Value ?? 0, summary.Curvature?.Value ?? 0, summary.Geometric?.MeanMicrometres ?? 0, summary.Geometric?.StandardDeviation ?? 0,
        summary.VolumeSpecificSurface ?? 0, summary.MassSpecificSurface ?? 0, summary.Moments?.StandardDeviationMicrometres ?? 0,
        .. Enumerable.Range(-3, 7).Select(k => summary.Moments?.Moment(k) ?? 0),
        .. from k in Enumerable.Range(1, 3) from r in Enumerable.Range(0, 4) select summary.Moments?.Mean(k, r) ?? 0,
    ];
}
