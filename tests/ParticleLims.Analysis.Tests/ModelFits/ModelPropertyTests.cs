using CsCheck;
using ParticleLims.Analysis.ModelFits;

namespace ParticleLims.Analysis.Tests.ModelFits;

public sealed class ModelPropertyTests
{
    private static readonly decimal[] Apertures = [20m, 28m, 40m, 56m, 80m, 112m, 160m, 224m];

    /// <summary>Slopes at which the apertures see no tail so thin that rounding hides it; Gates-Gaudin-Schuhmann with a top size beyond them.</summary>
    private static readonly Gen<FittedModel> Any = Gen.Select(Gen.Enum<Model>(), Gen.Double[60, 150], Gen.Double[0.5, 1.5])
        .Select((model, size, slope) => Of(model, model == Model.GatesGaudinSchuhmann ? size + 230 : size, slope));

    [Fact]
    public void Points_of_a_model_give_the_model_back_by_line_and_by_weighted_least_squares() =>
        Any.Sample(truth =>
        {
            var points = Apertures.Select(aperture => (aperture, Math.Round((decimal)truth.PassingPercentAt((double)aperture), 12))).ToArray();
            var fits = Requests.Given(points).Result().Models.Where(model => model.Model == truth.Model).ToList();
            fits.Count.ShouldBe(2);
            fits.ShouldAllBe(fit => Math.Abs(fit.SizeMicrometres / truth.SizeMicrometres - 1) < 1e-5 && Math.Abs(fit.Slope / truth.Slope - 1) < 1e-5);
        });

    [Fact]
    public void Size_at_a_percentage_and_percentage_at_a_size_are_inverse() =>
        Gen.Select(Any, Gen.Double[0.01, 99.99]).Sample((model, percent) => model.PassingPercentAt(model.SizeAtPercent(percent)).ShouldBe(percent, 1e-10));

    [Fact]
    public void Apertures_twice_as_coarse_make_models_twice_as_coarse() =>
        RandomRequests.Strict.Sample(points =>
        {
            var once = Requests.Given(points).Result().Models;
            var twice = Requests.Given(points.Select(point => (2 * point.Micrometres, point.Percent)).ToArray()).Result().Models;
            foreach (var (fine, coarse) in once.Zip(twice).Where(pair => pair.First.Method == FitMethod.StraightLine))
            {
                coarse.SizeMicrometres.ShouldBe(2 * fine.SizeMicrometres, 1e-9 * coarse.SizeMicrometres);
                coarse.Slope.ShouldBe(fine.Slope, 1e-9 * fine.Slope);
                coarse.RSquared.ShouldBe(fine.RSquared, 1e-9);
            }
        });

    /// <summary>No small step in any direction makes the sum smaller.</summary>
    [Fact]
    public void A_settled_fit_is_a_minimum() =>
        RandomRequests.Strict.Sample(points =>
        {
            foreach (var fit in Requests.Given(points).Result().Models.Where(model => model is { Method: FitMethod.WeightedLeastSquares, SizeStandardError: not null }))
            {
                var least = Sum(fit, points);
                foreach (var (size, slope) in new[] { (1.00001, 1.0), (0.99999, 1.0), (1.0, 1.00001), (1.0, 0.99999) })
                {
                    Sum(fit with { SizeMicrometres = fit.SizeMicrometres * size, Slope = fit.Slope * slope }, points).ShouldBeGreaterThanOrEqualTo((least * (1 - 1e-9)) - 1e-12);
                }
            }
        });

    [Fact]
    public void Weighted_least_squares_are_never_worse_in_percent_than_the_line() =>
        RandomRequests.Strict.Sample(points =>
        {
            foreach (var pair in Requests.Given(points).Result().Models.GroupBy(model => model.Model).Where(pair => pair.Count() == 2))
            {
                Sum(pair.Last(), points).ShouldBeLessThanOrEqualTo(Sum(pair.First(), points) * (1 + 1e-9) + 1e-9);
            }
        });

    [Fact]
    public void The_shares_outside_the_apertures_are_those_of_the_model() =>
        Any.Sample(truth =>
        {
            var points = Apertures.Select(aperture => (aperture, Math.Round((decimal)truth.PassingPercentAt((double)aperture), 9))).ToArray();
            var fit = Requests.Given(points).Result().Models.First(model => model.Model == truth.Model);
            fit.ShareBelowPercent!.Value.ShouldBe(truth.PassingPercentAt(20), 1e-3);
            fit.ShareAbovePercent!.Value.ShouldBe(100 - truth.PassingPercentAt(224), 1e-3);
        });

    private static double Sum(FittedModel fit, (decimal Micrometres, decimal Percent)[] points) =>
        points.Sum(point => Math.Pow((double)point.Percent - fit.PassingPercentAt((double)point.Micrometres), 2));

    private static FittedModel Of(Model model, double size, double slope) => new()
    {
        Model = model, Method = FitMethod.StraightLine, SizeMicrometres = size, Slope = slope, Intercept = -slope * Math.Log(size), RSquared = 1, PointsUsed = 8, PointsLeftOut = 0,
    };
}
