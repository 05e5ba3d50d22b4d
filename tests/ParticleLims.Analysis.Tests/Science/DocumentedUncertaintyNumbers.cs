using System.Globalization;
using ParticleLims.Analysis.Conformity;
using ParticleLims.Analysis.Conformity.History;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Analysis.Tests.Uncertainty;
using ParticleLims.Analysis.Uncertainty;
using ParticleLims.Analysis.Uncertainty.Trials;
using ParticleLims.Analysis.Weighings;

namespace ParticleLims.Analysis.Tests.Science;

/// <summary>The worked numbers of the pages about uncertainty.</summary>
internal static class DocumentedUncertaintyNumbers
{
    public static string EndPoint()
    {
        bool Reached(EndPointRule rule, decimal after) => rule.IsReached(Mass.FromGrams(2m), Mass.FromGrams(after), Mass.FromGrams(50m));
        var plain = EndPointRule.Pharmacopoeia with { SmallResiduePercent = null };
        (Reached(plain, 1.88m), Reached(plain, 1.9m), Reached(plain, 1.899m), Reached(EndPointRule.Pharmacopoeia, 1.88m)).ShouldBe((false, true, false, true));
        return Words($"2.000 g of 50 g lie on the sieve: after one more interval 1.880 g is not the end by 5 %, but it is by 0.1 g only if 1.900 g or more is left; as a small residue ({100 * 1.88 / 50:F1} % of the whole) it is the end");
    }

    public static string Portion()
    {
        var covariance = PortionTaking.Covariance(1, Procedure.CarriedResidue, [20, 50]).ShouldNotBeNull();
        return Words($"one portion with 20 % and 50 % passing and u = 1 % at 50 %: u = {Math.Sqrt(covariance[0]):F3} % and {Math.Sqrt(covariance[3]):F3} %, covariance {covariance[1]:F3} %²");
    }

    public static string SeparatePortion()
    {
        var input = new UncertaintyInput { BalanceRepeatability = Mass.FromGrams(0.002m), Readability = Mass.FromGrams(0.001m) };
        var cut = (Requests.Of(Procedure.SeparatePortions, Requests.Cut(45m, 312.345m, 324.345m, 318.001m)) with { Uncertainty = input }).Result().Cuts[0];
        var weighing = 1000 * new WeighingError(input).StandardUncertainty;
        return Words($"45 µm: 12 g with u_w = {weighing:F4} mg, R = {cut.RetainedPercent.ToDouble():F4} %: u(Q) = {cut.PassingStandardUncertaintyPercent:F5} %");
    }

    public static string Median()
    {
        var cuts = new[] { Cut(32m, 40m, 0.3m, 0.7m), Cut(45m, 60m, 0.4m, 0.9m) };
        var result = (Requests.Of(Procedure.GivenDistribution, cuts) with { Uncertainty = new UncertaintyInput(), Settings = new EvaluationSettings { Percentiles = [50m] } }).Result();
        var uncertainty = result.PercentileUncertainties[0].ShouldNotBeNull();
        var apertures = uncertainty.Budget.Where(entry => entry.Input == InputKind.SieveAperture).Sum(entry => entry.SharePercent);
        return Words($"40 % at 32 µm (u 0.3 %, 0.7 µm), 60 % at 45 µm (u 0.4 %, 0.9 µm): D50 = {result.Percentiles[0].Micrometres:F3} µm, u = {uncertainty.StandardUncertainty:F3} µm, of it the apertures {apertures:F1} %");
    }

    public static string Dominant()
    {
        var values = new MonteCarlo((count, work) => Parallel.For(0, count, work), 0.95, 1).Run(new TrialModels.Sum(true, 1, 1, 1, 10), 1_000_000)[0];
        var summary = TrialSummary.Of(values, 0.95);
        var half = (summary.High - summary.Low) / 2;
        return Words($"JCGM 101:2008, 9.2.4, rectangular inputs with u = 1, 1, 1, 10, seed 1, 1 000 000 trials: u = {summary.StandardDeviation:F2}, 95 % interval ±{half:F1} (exactly 10.1489 and ±17.015)");
    }

    public static string Guarded()
    {
        var limit = new LimitInput { Characteristic = Characteristic.Passing, Aperture = Aperture.FromMicrometres(63m), Lower = 97m, Rule = DecisionRule.Guarded };
        var request = Requests.Of(Procedure.GivenDistribution, Cut(63m, 97.6m, 0.35m, 1m)) with { Uncertainty = new UncertaintyInput(), Limits = [limit, limit with { Rule = DecisionRule.FourState }] };
        var (guarded, four) = (request.Result().Verdicts[0], request.Result().Verdicts[1]);
        (guarded.Verdict, four.Verdict).ShouldBe((Verdict.DoesNotConform, Verdict.ConformsWithinGuardBand));
        return Words($"at least 97 %, passing 97.6 % with u = 0.35 %: U = {guarded.ExpandedUncertainty:F3} %, accepted from {guarded.AcceptanceLower:F3} %: guarded does not conform, four states conforms within the guard band; probability of conformity {guarded.ProbabilityOfConformity:F3}");
    }

    public static string History()
    {
        var stored = new StoredDistributions([Aperture.FromMicrometres(20m), Aperture.FromMicrometres(63m)], [[4.0, 9.5, 12.0], [97.4, 98.1, 96.2]]);
        var passing = new LimitInput { Characteristic = Characteristic.Passing, Aperture = Aperture.FromMicrometres(63m), Lower = 97m, Rule = DecisionRule.Guarded };
        var fine = new LimitInput { Characteristic = Characteristic.Percentile, Percent = 10m, Lower = 15m };
        var verdicts = stored.Judge([new StoredLimit { Limit = passing, ExpandedUncertainty = 0.7 }, new StoredLimit { Limit = fine }]);
        return Words($"4, 9.5, 12 % at 20 µm and 97.4, 98.1, 96.2 % at 63 µm; at least 97 % at 63 µm, guarded with U = 0.7 %: {Counts(verdicts.ByLimit[0])}; D10 at least 15 µm: {Counts(verdicts.ByLimit[1])}; together {Counts(verdicts.AllLimits)}");
    }

    private static string Counts(VerdictCounts counts) => Words($"{counts.Conform} conform, {counts.DoNotConform} do not, {counts.Undecided} undecided");

    private static CutInput Cut(decimal size, decimal percent, decimal u, decimal apertureU) =>
        Requests.Passing(size, percent) with { PassingStandardUncertaintyPercent = u, ApertureStandardUncertainty = Aperture.FromMicrometres(apertureU) };

    private static string Words(FormattableString words) => words.ToString(CultureInfo.InvariantCulture);
}
