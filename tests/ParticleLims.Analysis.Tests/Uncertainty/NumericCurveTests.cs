using CsCheck;
using ParticleLims.Analysis.Distributions;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Analysis.Uncertainty;
using ParticleLims.Analysis.Uncertainty.Curves;

namespace ParticleLims.Analysis.Tests.Uncertainty;

public sealed class NumericCurveTests
{
    private static readonly Gen<(EvaluationRequest Request, decimal Percent)> Asked =
        Gen.Select(RandomRequests.Strict, RandomRequests.CurveRule, Gen.Int[1, 9_999]).Select((points, rule, share) =>
            (Requests.Given(points) with { Settings = new EvaluationSettings { Interpolation = rule, Percentiles = [share / 100m] } }, share / 100m));

    /// <summary>Both are the same rules, one with exact fractions and one in doubles.</summary>
    [Fact]
    public void Sizes_are_those_of_the_exact_curve() => Asked.Sample(asked =>
    {
        var percentile = asked.Request.Result().Percentiles[0];
        Read(asked.Request, curve => curve.SizeAt((double)asked.Percent)).ShouldBe(percentile.Micrometres, percentile.Micrometres * 1e-9);
    });

    [Fact]
    public void Percentages_are_those_of_the_exact_curve() => Gen.Select(Asked, Gen.Double[0, 1]).Sample((asked, part) =>
    {
        var exact = asked.Request.Result().Curve;
        var (finest, coarsest) = ((double)exact.Points[0].Aperture.Micrometres, (double)exact.Points[^1].Aperture.Micrometres);
        var micrometres = Math.Min(coarsest, finest + (part * (coarsest - finest)));
        Read(asked.Request, curve => curve.PercentAt(micrometres)).ShouldBe(exact.PassingPercentAt(micrometres).ShouldNotBeNull(), 1e-7);
    });

    [Fact]
    public void Repaired_values_are_those_of_the_exact_repair() => Gen.Double[0, 100].Array[1, 12].Sample(values =>
    {
        var exact = MonotoneRepair.Apply(values.Select(Ratio.FromDouble).ToList());
        var weights = Enumerable.Repeat(1.0, values.Length).ToArray();
        NumericRepair.Apply(values, weights);
        values.Zip(exact).ShouldAllBe(pair => Math.Abs(pair.First - pair.Second.ToDouble()) < 1e-10);
    });

    /// <summary>Three points 10, 30, 20 with weights 1, 1, 3: the last two become (30 + 3 · 20)/4 = 22.5.</summary>
    [Fact]
    public void Weights_pull_a_block_to_the_better_known_values()
    {
        double[] values = [10, 30, 20];
        NumericRepair.Apply(values, [1, 1, 3]);
        values.ShouldBe([10, 22.5, 22.5]);
        MonotoneRepair.Apply([.. new[] { 10m, 30m, 20m }.Select(Ratio.FromDecimal)], [1, 1, 3])[1].ToDouble().ShouldBe(22.5);
    }

    private delegate double Reading(NumericCurve curve);

    private static double Read(EvaluationRequest request, Reading read)
    {
        var model = (request with { Uncertainty = new UncertaintyInput() }).Result().Evaluation.ShouldNotBeNull().Model;
        return read(new NumericCurve(model.Percent, model.Sizes, model.Logs, request.Settings.Interpolation));
    }
}
