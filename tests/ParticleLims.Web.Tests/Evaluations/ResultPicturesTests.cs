using System.Globalization;
using Bunit;
using ParticleLims.Analysis;
using ParticleLims.Web.Controls;
using ParticleLims.Web.Evaluations;
using Shouldly;
using Xunit;

namespace ParticleLims.Web.Tests.Evaluations;

public sealed class ResultPicturesTests : BunitContext
{
    [Fact]
    public void The_curve_comes_first_and_each_other_picture_is_one_button_away()
    {
        var shown = Shown(Results.Labelled("run R-1", Results.Usual));
        shown.Find(".picture-wide title").TextContent.ShouldBe("Passing against aperture");
        foreach (var view in ResultPlots.ViewsOf(Results.Labelled("run R-1", Results.Usual)).Skip(1))
        {
            shown.Find($"[data-test=picture-{view.FileName()}]").Click();
            shown.Find(".picture-wide title").TextContent.ShouldBe($"{view.Words()}, run R-1");
            shown.FindAll("[aria-pressed=true]").Single().TextContent.ShouldBe(view.Words());
            shown.FindAll("figcaption a").Select(link => link.GetAttribute("href")).ShouldBe([$"/files/{view.FileName()}.svg", $"/files/{view.FileName()}.csv"]);
            shown.FindAll("table tbody tr").Count.ShouldBeGreaterThanOrEqualTo(6, view.Words());
        }
    }

    [Fact]
    public void Of_several_runs_one_is_chosen_by_its_number()
    {
        var shown = Shown(Results.Labelled("run R-1", Results.Usual), Results.Labelled("run R-2", Results.Old));
        shown.Find("[data-test=picture-residuals]").Click();
        shown.FindAll(".choice-row[role=group]").Count.ShouldBe(2);
        shown.FindAll(".choice-row[role=group]")[1].Children[1].Click();
        shown.Find(".picture-wide title").TextContent.ShouldBe("Residuals, run R-2");
    }

    [Fact]
    public void Pictures_of_old_and_scanty_results_show_what_is_there()
    {
        foreach (var result in new[] { Results.Old, Results.Single })
        {
            var labelled = Results.Labelled("run R-1", result);
            var shown = Shown(labelled);
            foreach (var view in ResultPlots.ViewsOf(labelled))
            {
                shown.Find($"[data-test=picture-{view.FileName()}]").Click();
                shown.Find(".picture-wide svg").InnerHtml.ShouldNotContain("NaN");
            }
        }
    }

    [Fact]
    public void Residuals_are_those_of_the_weighted_fits_with_the_band_of_the_measurement()
    {
        var plot = ResultPlots.Of(ResultView.Residuals, "run R-1", Results.Usual);
        plot.Numbers.Columns.ShouldBe(
            ["aperture in µm", "measured less fitted in %, Rosin-Rammler", "measured less fitted in %, log-normal", "measured less fitted in %, Gates-Gaudin-Schuhmann", "standard uncertainty in %"]);
        var fitted = Results.Usual.Models[1];
        double.Parse(plot.Numbers.Rows[0][1], CultureInfo.InvariantCulture).ShouldBe(18.42 - fitted.PassingPercentAt(20), 5e-5);
        plot.Numbers.Rows[0][4].ShouldBe("0.21");
    }

    [Fact]
    public void A_budget_is_offered_where_uncertainties_were_evaluated_and_for_each_characteristic()
    {
        ResultPlots.ViewsOf(Results.Labelled("run R-1", Results.Usual)).ShouldNotContain(ResultView.Budget);
        var shown = Shown(Results.Labelled("run R-1", Results.WithBudgets));
        shown.Find("[data-test=picture-uncertainty-budget]").Click();
        shown.Find(".picture-wide title").TextContent.ShouldBe("Uncertainty budget, run R-1, D50");
        shown.FindAll("figcaption a")[0].GetAttribute("href").ShouldBe("/files/uncertainty-budget-of-d50.svg");
        shown.FindAll("button").Single(button => button.TextContent == "D90").Click();
        shown.Find(".picture-wide title").TextContent.ShouldBe("Uncertainty budget, run R-1, D90");
        shown.Find("tbody").TextContent.ShouldContain("given passing of the 90 µm sieve");
        shown.FindAll("button").Single(button => button.TextContent == "Passing 63 µm").Click();
        shown.Find(".picture-wide title").TextContent.ShouldBe("Uncertainty budget, run R-1, Passing 63 µm");
        shown.FindAll("figcaption a")[0].GetAttribute("href").ShouldBe("/files/uncertainty-budget-of-limit-2.svg");
        shown.FindAll("button").Count(button => button.TextContent == "D50").ShouldBe(1);
    }

    [Fact]
    public void The_shares_of_each_budget_are_all_of_its_variance()
    {
        var budgets = Results.Labelled("run R-1", Results.WithBudgets).Budgets;
        budgets.Select(one => one.Key).ShouldBe(["d50", "d90", "d97", "limit-2"], "D10 lies below the finest aperture, so that neither it nor the span has an uncertainty");
        budgets.ShouldAllBe(one => Math.Abs(ResultPlots.Of(one, "run R-1").Numbers.Rows.Sum(row => double.Parse(row[3], CultureInfo.InvariantCulture)) - 100) < 1e-3);
        var passing = budgets.Single(one => one.Name == "Passing 63 µm");
        passing.Uncertainty.StandardUncertainty.ShouldBe(0.22, 1e-9, "the passing was given with it");
        ResultPlots.Of(passing, "run R-1").Numbers.Rows.ShouldContain(row => row[0] == "given passing of the 63 µm sieve");
    }

    [Fact]
    public void The_curve_marks_each_size_with_its_interval_where_uncertainties_were_evaluated()
    {
        var curve = CurveOf.Run("Curve", Results.WithBudgets, []);
        curve.CoverageFactor.ShouldBe(1.96, 0.001);
        var known = Results.WithBudgets.PercentileUncertainties[1].ShouldNotBeNull();
        var mark = curve.Percentiles.Single(one => one.Label == "D50");
        mark.Interval.ShouldBe(new Pictures.Plots.SizeInterval(known.Low, known.High, "95 %"));
        CurveOf.Run("Curve", Results.Usual, []).Percentiles.ShouldAllBe(one => one.Interval == null);
    }

    [Theory]
    [InlineData("uncertainty-budget-of-d50.svg", ResultView.Budget, "d50")]
    [InlineData("uncertainty-budget-of-d97.5.csv", ResultView.Budget, "d97.5")]
    [InlineData("uncertainty-budget-of-limit-3.csv", ResultView.Budget, "limit-3")]
    [InlineData("rosin-rammler-net.csv", ResultView.RosinRammlerNet, null)]
    public void A_files_name_says_the_picture(string file, ResultView view, string? subject)
    {
        var read = PictureFile.Read(file).ShouldNotBeNull();
        (read.View, read.Subject, read.IsTable).ShouldBe((view, subject, file.EndsWith("csv", StringComparison.Ordinal)));
        file.ShouldStartWith(read.Name);
    }

    [Theory]
    [InlineData("uncertainty-budget.svg")]
    [InlineData("uncertainty-budget-of-d.svg")]
    [InlineData("uncertainty-budget-of-limit-0.svg")]
    [InlineData("uncertainty-budget-of-limit-.svg")]
    [InlineData("uncertainty-budget-of-limit-2a.svg")]
    [InlineData("uncertainty-budget-of-d1,5.svg")]
    [InlineData("curve")]
    [InlineData("curve.svg.exe")]
    [InlineData("curve-of-d50.svg")]
    [InlineData(".svg")]
    public void Another_name_is_no_picture(string file) => PictureFile.Read(file).ShouldBeNull();

    [Fact]
    public void The_models_stand_by_both_methods_with_errors_and_cautions_in_words()
    {
        var table = Render<ModelsTable>(with => with.Add(one => one.Result, Results.Usual));
        var rows = table.FindAll("tbody tr:not(.fit-caution)");
        rows.Count.ShouldBe(6);
        rows.ShouldAllBe(row => row.TextContent.Contains('±'));
        rows[3].TextContent.ShouldContain("GSD");
        table.FindAll("tbody tr").Count(row => row.TextContent.Contains("(smallest)", StringComparison.Ordinal)).ShouldBe(2);
        table.FindAll(".fit-caution").Select(row => row.TextContent).ShouldBe(Results.Usual.Models.Where(model => model.Caution is not null).Select(model => $"Caution. {model.Caution}"));
        Results.Usual.Models.ShouldContain(model => model.Caution != null);
        Render<ModelsTable>(with => with.Add(one => one.Result, Results.Old)).FindAll("tbody tr:not(.fit-caution)").Count.ShouldBe(1);
        Render<ModelsTable>(with => with.Add(one => one.Result, Results.Single)).Markup.ShouldContain("No model could be fitted");
    }

    [Fact]
    public void The_description_states_what_the_surface_rests_on()
    {
        var words = Words(Results.Usual);
        var summary = Results.Usual.Summary!;
        words.ShouldContain(string.Create(CultureInfo.InvariantCulture, $"{summary.MassSpecificSurface!.Value:0.0000} m²/g (shape factor 1.4, density 2.71 g/cm³)"));
        words.ShouldContain(Say.Micrometres(summary.Moments!.SauterMeanMicrometres, 2));
        words.ShouldContain("18.42 %");
        words.ShouldContain("0.38 %");
        words.ShouldContain("very fine: D50 at most 125 µm");
        words.ShouldContain("between 45 µm and 63 µm");
    }

    [Fact]
    public void An_older_engines_description_says_that_it_gave_no_more()
    {
        Words(Results.Old).ShouldContain("Engine 1.0.0, which made this evaluation, gave no more numbers.");
        Words(Results.Single).ShouldContain("no mass between two apertures");
    }

    private string Words(EvaluationResult result) => Render<SummaryPairs>(with => with.Add(one => one.Result, result)).Markup;

    private IRenderedComponent<ResultPictures> Shown(params LabelledResult[] results) => Render<ResultPictures>(with => with
        .Add(one => one.Name, "sample S-1").Add(one => one.Curve, CurveOf.Run("Passing against aperture", results[0].Result, [])).Add(one => one.CurveFiles, "/files/curve").Add(one => one.Results, results));
}
