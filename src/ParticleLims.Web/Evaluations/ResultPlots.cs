using ParticleLims.Analysis;
using ParticleLims.Analysis.ModelFits;
using ParticleLims.Laboratory.Specifications;
using ParticleLims.Pictures.Drawing;
using ParticleLims.Pictures.Plots;
using ParticleLims.Web.Controls;

namespace ParticleLims.Web.Evaluations;

/// <summary>The pictures of a result, in the order in which they are offered.</summary>
public enum ResultView
{
    /// <summary>Passing over aperture.</summary>
    Curve,

    /// <summary>The net in which a Rosin-Rammler distribution is straight.</summary>
    RosinRammlerNet,

    /// <summary>The net in which a log-normal distribution is straight.</summary>
    LogNormalNet,

    /// <summary>The share of the mass by class.</summary>
    Histogram,

    /// <summary>The density by class.</summary>
    Density,

    /// <summary>Measured less fitted.</summary>
    Residuals,

    /// <summary>What an uncertainty comes from.</summary>
    Budget,
}

/// <summary>A run's result among those shown together.</summary>
/// <param name="Label">Its name, for example the run's number.</param>
/// <param name="Result">The numbers.</param>
/// <param name="Limits">The limits of its specification.</param>
/// <param name="Files">The address under which the server gives its pictures as files.</param>
public sealed record LabelledResult(string Label, EvaluationResult Result, IReadOnlyList<Limit> Limits, string Files)
{
    /// <summary>The characteristics whose uncertainty has a budget.</summary>
    public IReadOnlyList<BudgetSubject> Budgets { get; } = BudgetSubject.Of(Result, Limits);
}

/// <summary>What each picture of a result shows.</summary>
public static class ResultPlots
{
    /// <summary>The word on its button.</summary>
    public static string Words(this ResultView view) => view switch
    {
        ResultView.Curve => "Curve",
        ResultView.RosinRammlerNet => "Rosin-Rammler net",
        ResultView.LogNormalNet => "Log-normal net",
        ResultView.Histogram => "Histogram",
        ResultView.Density => "Density",
        ResultView.Residuals => "Residuals",
        ResultView.Budget => "Uncertainty budget",
        _ => throw new ArgumentOutOfRangeException(nameof(view), view, "Not a picture."),
    };

    /// <summary>Its name in addresses and files.</summary>
    public static string FileName(this ResultView view) => view.Words().ToLowerInvariant().Replace(' ', '-');

    /// <summary>The pictures that this result has: a budget only where uncertainties were evaluated.</summary>
    public static IEnumerable<ResultView> ViewsOf(LabelledResult result)
    {
        ArgumentNullException.ThrowIfNull(result);
        return Enum.GetValues<ResultView>().Where(view => view != ResultView.Budget || result.Budgets.Count > 0);
    }

    /// <summary>The picture of one run; the curve is described elsewhere, for it shows limits and other runs too, and so is a budget.</summary>
    public static IPlot Of(ResultView view, string label, EvaluationResult result)
    {
        ArgumentNullException.ThrowIfNull(result);
        var title = Title(view, label);
        return view switch
        {
            ResultView.Curve => new DistributionCurvePlot(CurveOf.Run(title, result, [])),
            ResultView.RosinRammlerNet => NetPlot.RosinRammler(NetOf(title, result, Model.RosinRammler)),
            ResultView.LogNormalNet => NetPlot.LogNormal(NetOf(title, result, Model.LogNormal)),
            ResultView.Histogram => new HistogramPlot(Shares(title, result)),
            ResultView.Density => new HistogramPlot(Shares(title, result) with { IsDensity = true }),
            ResultView.Residuals => new ResidualsPlot(ResidualsOf(title, result)),
            _ => throw new ArgumentOutOfRangeException(nameof(view), view, "Not a picture of a result alone."),
        };
    }

    /// <summary>The bars of one characteristic's budget.</summary>
    public static IPlot Of(BudgetSubject subject, string label)
    {
        ArgumentNullException.ThrowIfNull(subject);
        return new BudgetBarsPlot(UncertaintyBudgets.Of(Title(ResultView.Budget, label), subject));
    }

    /// <summary>How a model was fitted, in a word.</summary>
    public static string Words(this FitMethod method) => method == FitMethod.StraightLine ? "straight line" : "weighted least squares";

    private static string Title(ResultView view, string label) => $"{view.Words()}, {label}";

    private static Net NetOf(string title, EvaluationResult result, Model model) => new()
    {
        Title = title,
        Points = CurveOf.Points(result),
        CoverageFactor = result.Uncertainty?.CoverageFactor ?? 2,
        Lines = [.. result.Models.Where(fit => fit.Model == model).Select(fit => new NetLine(fit.Method == FitMethod.StraightLine ? "line" : "weighted", CurveOf.Line(fit)))],
    };

    private static Histogram Shares(string title, EvaluationResult result) => new()
    {
        Title = title,
        Classes = [.. result.Fractions.Select(one => new HistogramClass((double?)one.From?.Micrometres, (double?)one.To?.Micrometres, one.Percent.ToDouble()))],
    };

    // The weighted fits answer the question which model runs nearest to the points; an older evaluation has the line alone.
    private static Residuals ResidualsOf(string title, EvaluationResult result)
    {
        var weighted = result.Models.Where(fit => fit.Method == FitMethod.WeightedLeastSquares).ToList();
        var fits = weighted.Count > 0 ? weighted : [.. result.Models.Where(fit => fit.Method == FitMethod.StraightLine)];
        return new Residuals
        {
            Title = title,
            Fits = [.. fits.Select(fit => new ResidualFit(CurveOf.Line(fit).Name, [.. fit.Residuals.Select(one => new ResidualPoint((double)one.Aperture.Micrometres, one.PassingPercent))]))],
            CoverageFactor = result.Uncertainty?.CoverageFactor ?? 2,
            Uncertainties = [.. CurveOf.Points(result).Where(point => point.StandardUncertaintyPercent is not null).Select(point => new ResidualUncertainty(point.ApertureMicrometres, point.StandardUncertaintyPercent!.Value))],
        };
    }
}
