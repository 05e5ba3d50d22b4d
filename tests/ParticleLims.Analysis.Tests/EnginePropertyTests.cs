using System.Globalization;
using CsCheck;
using ParticleLims.Analysis.Distributions;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Analysis.Uncertainty;
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

    /// <summary>
    /// What version 1.1.0 answered when it was released; other bits need another engine version. The fits by weighted least squares, their errors, chi² and criterion were
    /// found again by a plain Gauss-Newton iteration in Python to eleven digits.
    /// </summary>
    [Fact]
    public void The_bits_of_version_1_1_0_stay_as_they_are()
    {
        var request = Requests.Given((20m, 8.5m), (32m, 24.75m), (45m, 47.125m), (63m, 71m), (90m, 90.25m), (125m, 98m));
        var text = (request with
        {
            Cuts = request.Cuts.Select(cut => cut with { PassingStandardUncertaintyPercent = 0.5m }).ToList(),
            Settings = new EvaluationSettings { Percentiles = [10m, 50m, 90m], TrueDensityGramsPerCubicCentimetre = 2.71m },
        }).Result("1.1.0").ToCanonicalText();
        text.ShouldBe(
            """
            engine 1.1.0
            cut 20000 20000 - - 183/2
            uncertainty 0.5
            cut 32000 32000 - - 301/4
            uncertainty 0.5
            cut 45000 45000 - - 423/8
            uncertainty 0.5
            cut 63000 63000 - - 29/1
            uncertainty 0.5
            cut 90000 90000 - - 39/4
            uncertainty 0.5
            cut 125000 125000 - - 2/1
            uncertainty 0.5
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
            fit -0.03570869917700492 - - 0.0202923169709003 27.054237266480552 9.836413608513102 1.0575354741268086
            surface 34.88062309249657 0.17201527576182274 0.06347427149882758
            residual 20000 -1.3364136085131015 -0.15326375441357065
            residual 32000 0.8450421737754858 0.04006412759702194
            residual 45000 4.6942113614443315 0.14326742203756138
            residual 63000 4.091642002680771 0.11274574266563103
            residual 90000 0.18459510611009478 0.008089599332799069
            residual 125000 -0.9424645258731914 -0.15090313721943915
            model RosinRammler WeightedLeastSquares 57.36774192207595 2.081607527132105 -8.429432540936583 0.24721973883825948 0.024913290394717527 0.9977460460137828 6 0
            fit -0.0017492519565507605 - - 14.586351698039751 66.345406792159 10.553224817337284 0.6350210365706772
            surface 33.60512199749449 0.17854421122016292 0.06588347277496787
            residual 20000 -2.0532248173372842 -4.1064496346745685
            residual 32000 -0.9211684328440697 -1.8423368656881394
            residual 45000 1.8291345956387346 3.658269191277469
            residual 63000 0.6636540179548689 1.3273080359097378
            residual 90000 -1.967925473875198 -3.935850947750396
            residual 125000 -1.3649789634293228 -2.7299579268586456
            model LogNormal StraightLine 44.630808849027076 1.8721261742322894 -7.111129743667154 1.1543616750951862 0.07614256325716678 0.9934267432869047 6 0
            fit 0.02185734744180405 1.7060009943644117 0.03706265631206064 0.013198165113611618 25.278588175708236 6.645293009675568 2.692241516981369
            surface 38.69712103104881 0.15505029418560293 0.05721413069579444
            residual 20000 1.8547069903244324 0.1305371343555961
            residual 32000 -1.9196528140288862 -0.05954309472922159
            residual 45000 -3.4902539116735625 -0.08755079452960755
            residual 63000 -3.0646957289417003 -0.0919565014254966
            residual 90000 -0.29222934384112875 -0.017152872961278653
            residual 125000 0.6922415169813689 0.12566612929001097
            model LogNormal WeightedLeastSquares 46.21313211956586 1.8385827172212699 -7.047772945928998 0.1920239457554381 0.02109011397847632 0.9984436691200765 6 0
            fit 0.00028893520338174914 1.7227075401958385 0.010747912808911906 10.071718283469995 48.28687313387998 6.179585630467079 3.366377322125004
            surface 39.85914714203907 0.15053006474571193 0.05554614935266123
            residual 20000 2.320414369532921 4.640828739065842
            residual 32000 -0.21057845664828534 -0.4211569132965707
            residual 45000 -0.924587559101461 -1.849175118202922
            residual 63000 -0.5567191564555145 -1.113438312911029
            residual 90000 1.2693568413584586 2.538713682716917
            residual 125000 1.366377322125004 2.732754644250008
            model GatesGaudinSchuhmann StraightLine 98.75768156001429 1.330781277178553 -6.111838168603984 13.594084536545463 0.2068794429327017 0.9118532593883084 6 0
            fit -2.020353069832358 - - 0.09743012234206139 46.699342742636375 11.94122188874499 0
            surface 24.54737874496813 0.24442528313659218 0.09019383141571667
            residual 20000 -3.4412218887449892 -0.33993027497302686
            residual 32000 2.430327410518217 0.10335702053920648
            residual 45000 11.991075020947477 0.29363645845983133
            residual 63000 16.021723191499284 0.2557417369470697
            residual 90000 1.8745268999726932 0.020989119686369503
            residual 125000 -2 -0.33379406065944445
            model GatesGaudinSchuhmann WeightedLeastSquares 77.32916753911192 1.5589511123699857 -6.7784304549786425 0.48430111162934975 0.0222003189547484 0.9795426843162515 6 0
            fit -0.008791279836881343 - - 132.38850623644626 537.554024945785 12.145271185999663 0
            surface 27.725836860221847 0.2164046492175743 0.07985411410242595
            residual 20000 -3.645271185999663 -7.290542371999326
            residual 32000 -0.5208756322839356 -1.0417512645678713
            residual 45000 4.1275653825732235 8.255130765146447
            residual 63000 -1.6522399357365884 -3.304479871473177
            residual 90000 -9.75 -19.5
            residual 125000 -2 -4
            class - 20000 17/2 - -
            class 20000 32000 65/4 0.013541666666666667 0.34574201110059705
            class 32000 45000 179/8 0.017211538461538462 0.6562996508667706
            class 45000 63000 191/8 0.013263888888888888 0.7095682021122451
            class 63000 90000 77/4 0.00712962962962963 0.5397071010209973
            class 90000 125000 31/4 0.002214285714285714 0.23591793159320976
            class 125000 - 2/1 - -
            mode 45000 63000 53.24471804789655 0.7095682021122451
            uniformity Equal 2.583108825688093 Equal 1.0663393434551636
            geometric 48.8780579790736 1.5643056094569574
            moments 17/2 2/1 1.8544402024084976E-05 0.0005970311376154022 0.02230815197245525 1 54.51326815642457 3565.3845437616387 270921.39210893854
            surface 1 2.71 0.1338489118347315 0.04939074237443967
            fineness VeryFine - -
            finding Note surface-of-measured-part -

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
        numbers.AddRange(result.PercentileUncertainties.Concat(result.Verdicts.Select(verdict => verdict.Uncertainty)).SelectMany(Numbers));
        numbers.AddRange(result.Verdicts.SelectMany(verdict => new[] { verdict.Value ?? 0, verdict.ExpandedUncertainty ?? 0, verdict.AcceptanceLower ?? 0, verdict.AcceptanceUpper ?? 0, verdict.ProbabilityOfConformity ?? 0 }));
        numbers.AddRange(result.Fractions.SelectMany(fraction => new[] { fraction.DensityPerMicrometre ?? 0, fraction.LogarithmicDensity ?? 0 }));

        return numbers;
    }

    private static IEnumerable<double> Numbers(CharacteristicUncertainty? uncertainty) => uncertainty is null ? [] :
    [
        uncertainty.StandardUncertainty, uncertainty.Expanded, uncertainty.Low, uncertainty.High, uncertainty.SharedStandardUncertainty, uncertainty.BelowFinestPercent, uncertainty.AboveCoarsestPercent,
        uncertainty.Trials?.Mean ?? 0, uncertainty.Trials?.Tolerance ?? 0, .. uncertainty.Budget.SelectMany(entry => new[] { entry.Sensitivity ?? 0, entry.Contribution, entry.SharePercent }),
    ];

    private static IEnumerable<double> Numbers(DistributionSummary summary) =>
    [
        summary.Mode?.ModeMicrometres ?? 0, summary.Uniformity?.Value ?? 0, summary.Curvature?.Value ?? 0, summary.Geometric?.MeanMicrometres ?? 0, summary.Geometric?.StandardDeviation ?? 0,
        summary.VolumeSpecificSurface ?? 0, summary.MassSpecificSurface ?? 0, summary.Moments?.StandardDeviationMicrometres ?? 0,
        .. Enumerable.Range(-3, 7).Select(k => summary.Moments?.Moment(k) ?? 0),
        .. from k in Enumerable.Range(1, 3) from r in Enumerable.Range(0, 4) select summary.Moments?.Mean(k, r) ?? 0,
    ];
}
