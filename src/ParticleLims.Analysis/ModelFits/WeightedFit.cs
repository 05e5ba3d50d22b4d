using ParticleLims.Analysis.Distributions.Functions;
using ParticleLims.Analysis.Distributions.Rules;
using ParticleLims.Analysis.Findings;

namespace ParticleLims.Analysis.ModelFits;

/// <summary>
/// A model on the percentages themselves: the sum of ((Q - model)/u)² made small over ln position and ln slope, beginning at the straight
/// line; all points take part, and without uncertainties every u is 1 % (docs/science/weighted-least-squares.md).
/// </summary>
internal static class WeightedFit
{
    private const int MostSteps = 300;
    private const double Steepest = 1e4;
    private const double Flattest = 0.02;
    private const double Half = 50;

    public static FittedModel? Fit(FittedModel line, IReadOnlyList<FitPoint> points, FindingLog log)
    {
        var problem = new ModelProblem(ModelWords.NetOf(line.Model), points, NaturalLogarithm.Of(line.SizeMicrometres), NaturalLogarithm.Of(line.Slope));
        var best = line.Model == Model.GatesGaudinSchuhmann ? OverTopSizes(problem, points) : LevenbergMarquardt.Minimise(problem, [1, 1], MostSteps);
        var (logSize, logSlope) = problem.At(best?.Parameters ?? [double.NaN, double.NaN]);
        if (best is null || !(Math.Abs(logSize) < 100) || !(Math.Abs(logSlope) < 100) || Exponential.Of(logSlope) is not (> Flattest and < Steepest))
        {
            log.Note(FindingCodes.NoFit, $"No {ModelWords.NameOf(line.Model)} fit by weighted least squares: its slope runs out of range.");
            return null;
        }

        return Describe(line.Model, points, best, logSize, Exponential.Of(logSlope));
    }

    /// <summary>
    /// Where the top size lies between two given apertures the points below follow the power and those above are level, without a corner: each such fit whose top size
    /// does lie there is a least sum, there is none at a corner itself, and the least of them is the answer. A level point of which half does not pass is no answer, and where the
    /// level points alone have a sum as large as the least so far, no finer top size has a smaller one.
    /// </summary>
    private static LeastSquaresSolution? OverTopSizes(ModelProblem problem, IReadOnlyList<FitPoint> points)
    {
        LeastSquaresSolution? best = null;
        for (var rising = points.Count; rising >= 2 && !(problem.SumOfLevel(rising) >= best?.SumOfSquares); rising--)
        {
            var found = LevenbergMarquardt.Minimise(problem.With(Net.PowerLaw, rising), [1, 1], MostSteps);
            var top = problem.At(found.Parameters).LogSize;
            if (top >= points[rising - 1].LogSize && (rising == points.Count || top <= points[rising].LogSize) && !(found.SumOfSquares >= best?.SumOfSquares))
            {
                best = found;
            }

            if (points[rising - 1].Percent < Half)
            {
                break;
            }
        }

        return best;
    }

    private static FittedModel Describe(Model model, IReadOnlyList<FitPoint> points, LeastSquaresSolution best, double logSize, double slope)
    {
        var (size, spare) = (Exponential.Of(logSize), points.Count - 2);
        var fitted = NetLineFit.Fitted(ModelWords.NetOf(model), points, logSize, slope);
        var hasUncertainties = points[0].Uncertainty is not null;
        double? reduced = spare > 0 ? best.SumOfSquares / spare : null;
        var scale = best.Settled && best.Covariance.All(double.IsFinite) ? (hasUncertainties ? 1 : reduced) : null;
        var fit = new FittedModel
        {
            Model = model,
            Method = FitMethod.WeightedLeastSquares,
            SizeMicrometres = size,
            Slope = slope,
            Intercept = -slope * logSize,
            SizeStandardError = scale is { } a ? size * Math.Sqrt(a * best.Covariance[0]) : null,
            SlopeStandardError = scale is { } b ? slope * Math.Sqrt(b * best.Covariance[3]) : null,
            SizeSlopeCovariance = size * slope * scale * best.Covariance[1],
            RSquared = RSquared(points, best.SumOfSquares),
            ReducedChiSquare = reduced,
            Aicc = hasUncertainties ? InformationCriterion.OfChiSquare(best.SumOfSquares, points.Count) : InformationCriterion.OfResiduals(best.SumOfSquares, points.Count),
            Residuals = Residuals(points, fitted),
            PointsUsed = points.Count,
            PointsLeftOut = 0,
            ShareBelowPercent = fitted[0],
            ShareAbovePercent = 100 - fitted[^1],
        };
        return FitCautions.Told(fit, points, hasUncertainties, best.Settled);
    }

    private static FitResidual[] Residuals(IReadOnlyList<FitPoint> points, double[] fitted)
    {
        var residuals = new FitResidual[points.Count];
        for (var i = 0; i < residuals.Length; i++)
        {
            residuals[i] = Residual(points[i], fitted[i]);
        }

        return residuals;
    }

    private static FitResidual Residual(FitPoint point, double fitted) => new()
    {
        Aperture = point.Aperture,
        PassingPercent = point.Percent - fitted,
        Minimised = (point.Percent - fitted) / (point.Uncertainty ?? 1),
    };

    private static double RSquared(IReadOnlyList<FitPoint> points, double sumOfSquares)
    {
        double weights = 0, mean = 0, about = 0;
        foreach (var point in points)
        {
            weights += Weight(point);
            mean += Weight(point) * point.Percent;
        }

        mean /= weights;
        foreach (var point in points)
        {
            about += Weight(point) * (point.Percent - mean) * (point.Percent - mean);
        }

        return 1 - (sumOfSquares / about);
    }

    private static double Weight(FitPoint point) => point.Uncertainty is { } u ? 1 / (u * u) : 1;
}
