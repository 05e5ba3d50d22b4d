using ParticleLims.Analysis.Distributions.Functions;
using ParticleLims.Analysis.Distributions.Rules;
using ParticleLims.Analysis.Findings;

namespace ParticleLims.Analysis.ModelFits;

/// <summary>
/// A straight line in a model's net, ordinate = slope (ln x - ln position), by ordinary least squares through the points strictly between
/// 0 and 100 % (docs/science/straight-line-fit.md).
/// </summary>
internal static class NetLineFit
{
    /// <summary>A log-normal line flatter than this has a geometric standard deviation beyond every powder, e to the power 50.</summary>
    private const double Flattest = 0.02;

    public static FittedModel? Fit(Model model, IReadOnlyList<FitPoint> points, FindingLog log)
    {
        var usable = points.Where(point => point.IsBetween).ToList();
        if (usable.Count < 2)
        {
            Missing(model, points.Count, log);
            return null;
        }

        var net = ModelWords.NetOf(model);
        var places = usable.ConvertAll(point => (X: point.LogSize, Y: net.Ordinate(point.Exact)));
        var line = StraightLine.Through(places);
        var logSize = line.MeanX - (line.MeanY / line.Slope);
        if (!(line.Slope > (model == Model.LogNormal ? Flattest : 0)) || !(Math.Abs(logSize) < 100))
        {
            log.Note(FindingCodes.NoFit, $"No {ModelWords.NameOf(model)} line: the points do not rise with the aperture.");
            return null;
        }

        var fit = Describe(model, line, logSize, points, usable, places);
        return fit with { Caution = FitCautions.Of(fit, points, hasUncertainties: false, settled: true) };
    }

    /// <summary>Nobody expects a line through the one sieve of a one-sieve test, and what is missing is said once for all models.</summary>
    private static void Missing(Model model, int points, FindingLog log)
    {
        if (points > 1 && model == Model.RosinRammler)
        {
            log.Note(FindingCodes.NoFit, "No Rosin-Rammler line: it needs two points between 0 % and 100 %.");
        }
    }

    private static FittedModel Describe(Model model, StraightLine line, double logSize, IReadOnlyList<FitPoint> points, List<FitPoint> usable, List<(double X, double Y)> places)
    {
        var (size, net) = (Exponential.Of(logSize), ModelWords.NetOf(model));
        return new FittedModel
        {
            Model = model,
            Method = FitMethod.StraightLine,
            SizeMicrometres = size,
            Slope = line.Slope,
            Intercept = line.Intercept,
            SizeStandardError = line.Variance is { } variance ? size * Math.Sqrt(LogSizeVariance(line, variance)) : null,
            SlopeStandardError = line.Variance is { } s ? Math.Sqrt(s / line.SumXX) : null,
            SizeSlopeCovariance = size * line.MeanY / (line.Slope * line.Slope) * line.Variance / line.SumXX,
            RSquared = line.RSquared,
            ReducedChiSquare = line.Variance,
            Aicc = InformationCriterion.OfResiduals(line.ResidualSum, line.Count, places.Sum(place => LogScale(net, place.Y))),
            Residuals = usable.Zip(places, (point, place) => Residual(net, line.Slope * (place.X - logSize), point, place.Y)).ToList(),
            PointsUsed = line.Count,
            PointsLeftOut = points.Count - usable.Count,
            ShareBelowPercent = net.Percent(line.Slope * (points[0].LogSize - logSize)),
            ShareAbovePercent = 100 - net.Percent(line.Slope * (points[^1].LogSize - logSize)),
        };
    }

    private static FitResidual Residual(Net net, double fitted, FitPoint point, double measured) =>
        new() { Aperture = point.Aperture, PassingPercent = point.Percent - net.Percent(fitted), Minimised = measured - fitted };

    /// <summary>ln(dQ/dy) where the point lies, Q in percent.</summary>
    private static double LogScale(Net net, double ordinate)
    {
        var percent = net.Percent(ordinate, out var slope);
        return NaturalLogarithm.Of(slope > 0 ? slope : percent);
    }

    /// <summary>ln of the position = mean(ln x) - mean(y) / slope, and mean(y) and the slope are uncorrelated.</summary>
    private static double LogSizeVariance(StraightLine line, double variance)
    {
        var n2 = line.Slope * line.Slope;
        return (variance / (line.Count * n2)) + (line.MeanY * line.MeanY * variance / (n2 * n2 * line.SumXX));
    }
}
