using System.Globalization;
using ParticleLims.Analysis.Conformity;
using ParticleLims.Analysis.Distributions;
using ParticleLims.Analysis.Distributions.Functions;
using ParticleLims.Analysis.ModelFits;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Analysis.Sieves;
using ParticleLims.Analysis.Tests.ReferenceData;
using ParticleLims.Analysis.Weighings;

namespace ParticleLims.Analysis.Tests.Science;

/// <summary>Computes each worked number of docs/science again and compares the whole line.</summary>
public sealed class DocumentedNumberTests
{
    private static readonly Dictionary<string, Func<IEnumerable<string>>> Pages = new(StringComparer.Ordinal)
    {
        ["README.md"] = () => [],
        ["separate-portions.md"] = () => [SeparatePortions()],
        ["carried-residue.md"] = () => [CarriedResidue(), TransferLoss()],
        ["nested-stack.md"] = () => [Stack()],
        ["end-point.md"] = () => [DocumentedUncertaintyNumbers.EndPoint()],
        ["recovery.md"] = () => [CollectedRecovery(), StackRecovery()],
        ["weighing-uncertainty.md"] = () => [Uncertainty(), Gain()],
        ["monotone-repair.md"] = () => [Repair()],
        ["interpolation.md"] = () => [FourRules(), Cubic()],
        ["percentiles.md"] = () => [Outside()],
        ["span.md"] = () => [Span()],
        ["straight-line-fit.md"] = () => [],
        ["rosin-rammler.md"] = () => [Doll(), Model150()],
        ["simple-acceptance.md"] = () => [Unrounded(), Bounds()],
        ["replicate-mean.md"] = () => [Mean(), MeanBelow()],
        ["rounding.md"] = () => [Tie()],
        ["elementary-functions.md"] = () => [Quantile()],
        ["engine-versions.md"] = () => [DocumentedModelNumbers.Versions()],
        ["density.md"] = () => [DocumentedModelNumbers.Density()],
        ["mode.md"] = () => [DocumentedModelNumbers.Mode()],
        ["uniformity.md"] = () => [DocumentedModelNumbers.Uniformity()],
        ["geometric-mean.md"] = () => [DocumentedModelNumbers.Geometric()],
        ["moments.md"] = () => [DocumentedModelNumbers.Moments()],
        ["mean-diameters.md"] = () => [DocumentedModelNumbers.Means()],
        ["specific-surface.md"] = () => [DocumentedModelNumbers.Surface()],
        ["fineness-class.md"] = () => [DocumentedModelNumbers.FinenessClass()],
        ["fineness-modulus.md"] = () => [DocumentedModelNumbers.Modulus()],
        ["log-normal.md"] = () => [DocumentedModelNumbers.LogNormal()],
        ["gates-gaudin-schuhmann.md"] = () => [DocumentedModelNumbers.Power()],
        ["weighted-least-squares.md"] = () => [DocumentedModelNumbers.Weighted()],
        ["information-criterion.md"] = () => [DocumentedModelNumbers.Criterion()],
        ["fit-cautions.md"] = () => [DocumentedModelNumbers.Cautions()],
        ["model-moments.md"] = () => [DocumentedModelNumbers.ModelMeans()],
        ["sieve-series.md"] = () => [Numbers()],
        ["uncertainty-inputs.md"] = () => [DocumentedUncertaintyNumbers.Portion()],
        ["uncertainty-propagation.md"] = () => [DocumentedUncertaintyNumbers.SeparatePortion(), DocumentedUncertaintyNumbers.Median()],
        ["monte-carlo.md"] = () => [DocumentedUncertaintyNumbers.Dominant()],
        ["judging-history.md"] = () => [DocumentedUncertaintyNumbers.History()],
        ["speed.md"] = () => [],
        ["guarded-acceptance.md"] = () => [DocumentedUncertaintyNumbers.Guarded()],
    };

    public static TheoryData<string> PageNames => [.. SciencePages.Names];

    [Theory]
    [MemberData(nameof(PageNames))]
    public void The_worked_numbers_of_a_page_are_what_the_engine_computes(string page) =>
        SciencePages.WorkedNumbers(page).ShouldBe((Pages.GetValueOrDefault(page) ?? DocumentedStatistics.Pages[page])());

    private static string SeparatePortions()
    {
        var cut = Requests.Of(Procedure.SeparatePortions, Requests.Cut(45m, 312.345m, 324.345m, 318.001m)).Result().Cuts[0];
        return $"45 µm: empty 312.345 g, loaded 324.345 g, after sieving 318.001 g: retained {Text(cut.RetainedPercent, 4)} %, passing {Text(cut.PassingPercent, 4)} %";
    }

    private static string CarriedResidue()
    {
        var cuts = Requests.Of(
            Procedure.CarriedResidue,
            Requests.Cut(32m, 300m, 325m, 315m),
            Requests.Cut(63m, 310m, null, 312.5m),
            Requests.Cut(90m, 320m, null, 320.1m)).Result().Cuts.Select(cut => Text(cut.PassingPercent, 1)).ToList();
        return $"25 g on 32 µm leave 15 g, on 63 µm 2.5 g, on 90 µm 0.1 g: passing {cuts[0]} %, {cuts[1]} % and {cuts[2]} %";
    }

    private static string TransferLoss()
    {
        var request = Requests.Of(Procedure.CarriedResidue, Requests.Cut(32m, 300m, 325m, 315m), Requests.Cut(63m, 310m, 324.5m, 312.9m));
        var putBack = request with { Settings = new EvaluationSettings { TransferLoss = TransferLossRule.PutBackInProportion } };
        var loss = request.Result().TransferLosses[0];
        return $"25 g on 32 µm leave 15 g; 14.5 g arrive on 63 µm and leave 2.9 g: loss {loss.Lost} or {Text(loss.PercentOfPortion, 2)} %; "
            + $"passing 63 µm {Text(request.Result().Passing(63m), 1)} %, with the loss put back {Text(putBack.Result().Passing(63m), 1)} %";
    }

    private static readonly EvaluationRequest FiftyGrams = Requests.Of(
        Procedure.NestedStack,
        Requests.Cut(250m, 300m, null, 310m),
        Requests.Cut(125m, 300m, null, 330m)) with
    {
        Receiver = new ReceiverInput { Empty = Mass.FromGrams(400m), After = Mass.FromGrams(409m) },
        Portion = Mass.FromGrams(50m),
    };

    private static string Stack()
    {
        var sum = FiftyGrams.Result();
        var portion = (FiftyGrams with { Settings = new EvaluationSettings { Basis = PercentBasis.Portion } }).Result();
        return "50 g put on; 10 g on 250 µm, 30 g on 125 µm, 9 g in the receiver: by the sum passing "
            + $"{Text(sum.Passing(250m), 2)} % and {Text(sum.Passing(125m), 2)} %, by the portion {Text(portion.Passing(250m), 2)} % and {Text(portion.Passing(125m), 2)} %";
    }

    private static string CollectedRecovery()
    {
        var request = Requests.Of(Procedure.SeparatePortions, Requests.Cut(63m, 300m, 320m, 300.53m)) with { Collected = Mass.FromGrams(19.2m) };
        return $"20 g on 63 µm leave 0.53 g, 19.2 g are collected: recovery {Text(request.Result().RecoveryPercent, 2)} %";
    }

    private static string StackRecovery() => $"50 g put on a stack, 49 g found: recovery {Text(FiftyGrams.Result().RecoveryPercent, 2)} %";

    private static string Uncertainty()
    {
        var u = WeighingUncertainty.Of(Mass.FromGrams(0.002m), Mass.FromGrams(0.001m), Mass.FromGrams(0.003m));
        return string.Create(CultureInfo.InvariantCulture, $"s = 2 mg, d = 1 mg, l = 3 mg: u_w = {u.Micrograms} µg");
    }

    private static string Gain()
    {
        bool Refused(int micrograms) => Engine.Evaluate(
            Requests.Of(Procedure.SeparatePortions, Requests.Cut(63m, 300m, 310m, 310m + (micrograms / 1_000_000m))) with
            {
                WeighingStandardUncertainty = Mass.FromGrams(0.002m),
            }) is Refused;
        var first = Enumerable.Range(1, 20_000).First(Refused);
        return string.Create(CultureInfo.InvariantCulture, $"u_w = 2 mg: a gain of {first - 1} µg is explained, one of {first} µg is refused");
    }

    private static string Repair()
    {
        var curve = Requests.Given((32m, 40m), (45m, 54m), (53m, 52m), (63m, 80m)).Result().Curve.Points.Select(point => Text(point.PassingPercent, 2)).ToList();
        return $"40, 54, 52 and 80 % passing 32, 45, 53 and 63 µm: the curve has {curve[0]}, {curve[1]}, {curve[2]} and {curve[3]} %";
    }

    private static string FourRules()
    {
        string Median(Interpolation rule) => Text(Size(Requests.Given((45m, 42m), (63m, 67m)), rule, 50m), 4);
        return $"42 % pass 45 µm and 67 % pass 63 µm: D50 linear {Median(Interpolation.Linear)} µm, logLinear {Median(Interpolation.LogLinear)} µm, "
            + $"rosinRammler {Median(Interpolation.RosinRammler)} µm, logNormal {Median(Interpolation.LogNormal)} µm";
    }

    private static string Cubic()
    {
        var table = Requests.Given((20m, 8.5m), (32m, 24.75m), (45m, 47.125m), (63m, 71m), (90m, 90.25m), (125m, 98m));
        return $"8.5, 24.75, 47.125, 71, 90.25 and 98 % pass 20, 32, 45, 63, 90 and 125 µm: D50 monotoneCubic {Text(Size(table, Interpolation.MonotoneCubic, 50m), 4)} µm";
    }

    private static string Outside()
    {
        var percentiles = Requests.Given((20m, 15m), (125m, 96m)).Result().Percentiles;
        string Told(int i) => string.Create(
            CultureInfo.InvariantCulture,
            $"D{percentiles[i].Percent} {(percentiles[i].Relation == Relation.Below ? "below" : "above")} {percentiles[i].Micrometres} µm");
        return $"15 % pass 20 µm and 96 % pass 125 µm: {Told(0)}, {Told(3)}";
    }

    private static string Span() =>
        $"D10 10 µm, D50 40 µm, D90 90 µm: span {Text(Requests.Given((10m, 10m), (40m, 50m), (90m, 90m)).Result().Span.Value, 3)}";

    private static string Doll()
    {
        var points = ReferenceFile.Rows("rrsb_examples.csv").Where(row => row["example"] == "Doll_A")
            .Select(row => (row.Number("aperture_um"), 100m - row.Number("R_pct"))).ToArray();
        points.Length.ShouldBe(10);
        var line = Requests.Given(points).Result().Models[0];
        return $"Doll's ten points (600 to 38 µm): n = {Text(line.Slope, 7)}, intercept = {Text(line.Intercept, 6)}, x' = {Text(line.SizeMicrometres, 5)} µm, r² = {Text(line.RSquared, 4)}";
    }

    private static string Model150()
    {
        var model = new FittedModel
        {
            Model = Model.RosinRammler,
            Method = FitMethod.StraightLine,
            SizeMicrometres = 150,
            Slope = 1.2,
            Intercept = -1.2 * Math.Log(150),
            RSquared = 1,
            PointsUsed = 2,
            PointsLeftOut = 0,
        };
        return $"x' = 150 µm and n = 1.2: {Text(model.PassingPercentAt(75), 1)} % pass 75 µm, D80 = {Text(model.SizeAtPercent(80), 0)} µm";
    }

    private static string Unrounded()
    {
        var verdict = Judge(new LimitInput { Characteristic = Characteristic.Passing, Aperture = Aperture.FromMicrometres(63m), Lower = 97m }, (63m, 96.96m));
        return $"at least 97 % passing, measured 96.96 %, one decimal: {verdict.Rounded}, {Words(verdict.Verdict)}; "
            + $"as rounded it {(verdict.VerdictAsRounded == Verdict.Conforms ? "would conform" : "would not conform")}";
    }

    private static string Bounds()
    {
        string Told(decimal? lower, decimal? upper) => Words(
            Judge(new LimitInput { Characteristic = Characteristic.Percentile, Percent = 10m, Lower = lower, Upper = upper }, (20m, 15m), (125m, 96m)).Verdict);
        return $"D10 below 20 µm, at most 25 µm: {Told(null, 25m)}; at most 19 µm: {Told(null, 19m)}; at least 20 µm: {Told(20m, null)}";
    }

    private static string Mean()
    {
        var limit = new LimitInput { Characteristic = Characteristic.Passing, Aperture = Aperture.FromMicrometres(63m), Lower = 97m, Digits = 2 };
        var runs = new[] { 96.97m, 97.01m, 97.02m }.Select(percent => Requests.Given((63m, percent)).Result()).ToList();
        var verdict = Engine.JudgeReplicates(runs, [limit]).Verdicts[0];
        return $"96.97, 97.01 and 97.02 % against at least 97 %: mean {verdict.Rounded} %, {Words(verdict.Verdict)}";
    }

    private static string MeanBelow()
    {
        var limit = new LimitInput { Characteristic = Characteristic.Percentile, Percent = 10m, Upper = 25m };
        EvaluationResult[] runs = [Requests.Given((20m, 15m), (63m, 60m)).Result(), Requests.Given((20m, 5m), (24m, 10m)).Result()];
        var verdict = Engine.JudgeReplicates(runs, [limit]).Verdicts[0];
        verdict.Relation.ShouldBe(Relation.Below);
        return $"D10 below 20 µm and D10 24 µm: mean below {verdict.Rounded} µm";
    }

    private static string Tie()
    {
        var value = Ratio.FromDecimal(97.25m);
        return $"97.25 % with one decimal: {value.ToString(1, Rounding.HalfEven)} half to even, {value.ToString(1, Rounding.HalfAwayFromZero)} half away from zero";
    }

    private static string Quantile() =>
        string.Create(CultureInfo.InvariantCulture, $"quantile of 0.975: {NormalDistribution.Quantile(0.975, 0.025):F14}");

    private static string Numbers()
    {
        string Told(decimal micrometres)
        {
            var size = SieveSeries.Find(Aperture.FromMicrometres(micrometres)).ShouldNotBeNull();
            return $"{size.Aperture} is E11 No. {size.E11Number}";
        }

        return $"{Told(63m)}; {Told(45m)}";
    }

    private static double Size(EvaluationRequest request, Interpolation rule, decimal percent) =>
        (request with { Settings = new EvaluationSettings { Interpolation = rule, Percentiles = [percent] } }).Result().Percentiles[0].Micrometres;

    private static LimitVerdict Judge(LimitInput limit, params (decimal, decimal)[] points) =>
        (Requests.Given(points) with { Limits = [limit] }).Result().Verdicts[0];

    private static string Words(Verdict verdict) => verdict switch
    {
        Verdict.Conforms => "conforms",
        Verdict.DoesNotConform => "does not conform",
        Verdict.Undecided => "undecided",
        _ => verdict.ToString(),
    };

    private static string Text(Ratio? value, int digits) => value.ShouldNotBeNull().ToString(digits, Rounding.HalfEven);

    private static string Text(double value, int digits) => Ratio.FromDouble(value).ToString(digits, Rounding.HalfEven);
}
