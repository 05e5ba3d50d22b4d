using System.Globalization;
using ParticleLims.Analysis.Findings;
using ParticleLims.Analysis.ModelFits;
using ParticleLims.Analysis.Tests.ReferenceData;
using ParticleLims.Analysis.Weighings;

namespace ParticleLims.Analysis.Tests.ModelFits;

public sealed class WeightedFitTests
{
    private static readonly (decimal, decimal)[] Doll = ReferenceFile.Rows("rrsb_examples.csv").Where(row => row["example"] == "Doll_A")
        .Select(row => (row.Number("aperture_um"), 100m - row.Number("R_pct"))).ToArray();

    /// <summary>rrsb_results.csv: SciPy's nonlinear least squares on R % of the points of Doll's published sheet.</summary>
    [Fact]
    public void The_fit_on_the_percentages_of_Doll_agrees_to_the_last_digit()
    {
        var fit = Fit(Requests.Given(Doll), Model.RosinRammler);
        Printed.Like("0.88221048", fit.Slope).ShouldBe(Computed("nonlinear LSQ on R%: n", 0));
        Printed.Like("0.02832", fit.SlopeStandardError!.Value).ShouldBe(Computed("nonlinear LSQ on R%: n", 1));
        Printed.Like("66.296105", fit.SizeMicrometres).ShouldBe(Computed("nonlinear LSQ on R%: x'", 0));
        Printed.Like("1.1017", fit.SizeStandardError!.Value).ShouldBe(Computed("nonlinear LSQ on R%: x'", 1));
        Printed.Like("12.172942", fit.ReducedChiSquare!.Value * 8).ShouldBe(Computed("nonlinear LSQ: RSS", 0));
        fit.Residuals.Sum(residual => residual.PassingPercent * residual.PassingPercent).ShouldBe(fit.ReducedChiSquare.Value * 8, 1e-10);
    }

    /// <summary>N ln(RSS/N) + 2 K + 2 K (K + 1)/(N - K - 1) with K = 3 (Hurvich and Tsai 1989), from the published RSS.</summary>
    [Fact]
    public void The_criterion_of_Doll_follows_from_the_sum_of_squares() =>
        Fit(Requests.Given(Doll), Model.RosinRammler).Aicc!.Value.ShouldBe((10 * Math.Log(12.172942 / 10)) + 6 + (24 / 6.0), 1e-6);

    /// <summary>
    /// The criterion of a straight line speaks of percent too: brought back by ln(dQ/dy), with the derivative of 1 - exp(-exp y) taken by differences here.
    /// </summary>
    [Fact]
    public void The_criterion_of_a_line_is_brought_back_to_percent()
    {
        var line = Requests.Given(Doll).Result().Models[0];
        var sum = line.Residuals.Sum(residual => residual.Minimised * residual.Minimised);
        var scale = Doll.Sum(point =>
        {
            var y = Math.Log(-Math.Log(1 - ((double)point.Item2 / 100)));
            return Math.Log((100 * (Math.Exp(-Math.Exp(y - 1e-6)) - Math.Exp(-Math.Exp(y + 1e-6)))) / 2e-6);
        });
        line.ReducedChiSquare!.Value.ShouldBe(sum / 8, 1e-12);
        line.Aicc!.Value.ShouldBe((10 * Math.Log(sum / 10)) + (2 * scale) + 6 + (24 / 6.0), 1e-5);
    }

    [Fact]
    public void Known_uncertainties_are_the_weights_and_give_the_standard_errors()
    {
        var even = Given(Doll, 0.5m);
        var fit = Fit(even, Model.RosinRammler);
        var unweighted = Fit(Requests.Given(Doll), Model.RosinRammler);
        fit.SizeMicrometres.ShouldBe(unweighted.SizeMicrometres, 1e-9);
        fit.ReducedChiSquare!.Value.ShouldBe(unweighted.ReducedChiSquare!.Value / 0.25, 1e-9);
        fit.SlopeStandardError!.Value.ShouldBe(unweighted.SlopeStandardError!.Value * 0.5 / Math.Sqrt(unweighted.ReducedChiSquare.Value), 1e-9);
        fit.Aicc!.Value.ShouldBe((fit.ReducedChiSquare.Value * 8) + 4 + (12 / 7.0), 1e-9);
        fit.Caution.ShouldNotBeNull().ShouldContain("further from the model than the uncertainties of the percentages explain");
        Fit(Given(Doll, 30m), Model.RosinRammler).Caution.ShouldNotBeNull().ShouldContain("nearer to the model");
        Fit(Given(Doll, 1.2m), Model.RosinRammler).Caution.ShouldBeNull();
    }

    [Fact]
    public void A_point_that_is_hardly_known_hardly_counts()
    {
        (decimal, decimal)[] bent = [.. Doll.Take(9), (38m, 80m)];
        var cuts = Requests.Given(bent).Cuts.Select((cut, i) => cut with { PassingStandardUncertaintyPercent = i == 9 ? 100m : 0.001m }).ToArray();
        var fit = Fit(Requests.Of(Procedure.GivenDistribution, cuts), Model.RosinRammler);
        fit.SizeMicrometres.ShouldBe(Fit(Requests.Given(Doll.Take(9).ToArray()), Model.RosinRammler).SizeMicrometres, 1e-5);
    }

    [Fact]
    public void Points_at_0_and_100_percent_take_part_in_the_weighted_fit()
    {
        var models = Requests.Given([.. Doll, (2000m, 100m)]).Result().Models;
        models.Where(model => model.Method == FitMethod.WeightedLeastSquares).ShouldAllBe(model => model.PointsUsed == 11 && model.PointsLeftOut == 0);
        models.Where(model => model.Method == FitMethod.StraightLine).ShouldAllBe(model => model.PointsUsed == 10 && model.PointsLeftOut == 1);
    }

    [Fact]
    public void Each_model_comes_by_line_and_by_weighted_least_squares_the_line_first() =>
        Requests.Given(Doll).Result().Models.Select(model => (model.Model, model.Method)).ShouldBe(
        [
            (Model.RosinRammler, FitMethod.StraightLine), (Model.RosinRammler, FitMethod.WeightedLeastSquares),
            (Model.LogNormal, FitMethod.StraightLine), (Model.LogNormal, FitMethod.WeightedLeastSquares),
            (Model.GatesGaudinSchuhmann, FitMethod.StraightLine), (Model.GatesGaudinSchuhmann, FitMethod.WeightedLeastSquares),
        ]);

    [Fact]
    public void A_top_size_between_two_apertures_is_found()
    {
        // 100 (x/80)^0.7, rounded to six decimals by hand of a calculator; coarser apertures let all pass.
        var points = new[] { 10, 20, 32, 45, 63, 90, 125 }.Select(x => ((decimal)x, Math.Round((decimal)Math.Min(100, 100 * Math.Pow(x / 80.0, 0.7)), 6))).ToArray();
        var fit = Fit(Requests.Given(points), Model.GatesGaudinSchuhmann);
        fit.SizeMicrometres.ShouldBe(80, 1e-5);
        fit.Slope.ShouldBe(0.7, 1e-7);
        fit.ShareAbovePercent.ShouldBe(0);
    }

    [Fact]
    public void Falling_points_have_no_model_and_a_note_for_each()
    {
        var result = Requests.Given((45m, 60m), (63m, 40m)).Result();
        result.Models.ShouldBeEmpty();
        result.Findings.Where(finding => finding.Code == FindingCodes.NoFit).Select(finding => finding.Message.Split(" line")[0])
            .ShouldBe(["No Rosin-Rammler", "No log-normal", "No Gates-Gaudin-Schuhmann"]);
    }

    private static EvaluationRequest Given((decimal, decimal)[] points, decimal uncertainty)
    {
        var request = Requests.Given(points);
        return request with { Cuts = request.Cuts.Select(cut => cut with { PassingStandardUncertaintyPercent = uncertainty }).ToList() };
    }

    private static FittedModel Fit(EvaluationRequest request, Model model) =>
        request.Result().Models.Single(fit => fit.Model == model && fit.Method == FitMethod.WeightedLeastSquares);

    /// <summary>The value, or the standard error in brackets behind it, as the table prints them.</summary>
    private static string Computed(string quantity, int part)
    {
        var row = ReferenceFile.Rows("rrsb_results.csv").Single(row => row["example"] == "Doll_A" && row["quantity"] == quantity);
        return row["computed"].Replace(")", string.Empty, StringComparison.Ordinal).Split(" (se ")[part].ToString(CultureInfo.InvariantCulture);
    }
}
