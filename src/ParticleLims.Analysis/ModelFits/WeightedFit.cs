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
        var problem = new Problem(ModelWords.NetOf(line.Model), points, points.Count, NaturalLogarithm.Of(line.SizeMicrometres), NaturalLogarithm.Of(line.Slope));
        var best = line.Model == Model.GatesGaudinSchuhmann ? OverTopSizes(problem, points) : LevenbergMarquardt.Minimise(problem, [1, 1], MostSteps);
        var (logSize, logSlope) = problem.At(best?.Parameters ?? [double.NaN, double.NaN]);
        if (best is null || !(Math.Abs(logSize) < 100) || !(Math.Abs(logSlope) < 100) || Exponential.Of(logSlope) is not (> Flattest and < Steepest))
        {
            log.Note(FindingCodes.NoFit, $"No {ModelWords.NameOf(line.Model)} fit by weighted least squares: its slope runs out of range.");
            return null;
        }

        var fit = Describe(line.Model, points, best, logSize, Exponential.Of(logSlope));
        return fit with { Caution = FitCautions.Of(fit, points, points[0].Uncertainty is not null, best.Settled) };
    }

    /// <summary>
    /// Where the top size lies between two given apertures the points below follow the power and those above are level, without a corner: each such fit whose top size
    /// does lie there is a least sum, there is none at a corner itself, and the least of them is the answer. A level point of which half does not pass is no answer.
    /// </summary>
    private static LeastSquaresSolution? OverTopSizes(Problem problem, IReadOnlyList<FitPoint> points)
    {
        LeastSquaresSolution? best = null;
        for (var rising = points.Count; rising >= 2; rising--)
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
        var fitted = Fitted(model, points, logSize, slope);
        var hasUncertainties = points[0].Uncertainty is not null;
        double? reduced = spare > 0 ? best.SumOfSquares / spare : null;
        var scale = best.Settled && best.Covariance.All(double.IsFinite) ? (hasUncertainties ? 1 : reduced) : null;
        return new FittedModel
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
            Residuals = points.Select((point, i) => Residual(point, fitted[i])).ToList(),
            PointsUsed = points.Count,
            PointsLeftOut = 0,
            ShareBelowPercent = fitted[0],
            ShareAbovePercent = 100 - fitted[^1],
        };
    }

    private static double[] Fitted(Model model, IReadOnlyList<FitPoint> points, double logSize, double slope)
    {
        Span<double> ordinates = stackalloc double[points.Count];
        for (var i = 0; i < ordinates.Length; i++)
        {
            ordinates[i] = slope * (points[i].LogSize - logSize);
        }

        var fitted = new double[points.Count];
        ModelWords.NetOf(model).Percents(ordinates, fitted, []);
        return fitted;
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

    /// <summary>
    /// The parameters are ln position and ln slope less those of the straight line, plus one: so they begin at one, and a step of
    /// one is a factor of e.
    /// </summary>
    private readonly struct Problem(Net net, IReadOnlyList<FitPoint> points, int rising, double logSize, double logSlope) : ILeastSquaresProblem
    {
        private const double Farthest = 100;

        public int Points => points.Count;

        public int Parameters => 2;

        public (double LogSize, double LogSlope) At(ReadOnlySpan<double> parameters) => (logSize + parameters[0] - 1, logSlope + parameters[1] - 1);

        /// <summary>The same with another net, and only so many points, the finest, below the top size.</summary>
        public Problem With(Net other, int below) => new(other, points, below, logSize, logSlope);

        public void Evaluate(ReadOnlySpan<double> parameters, Span<double> residuals, Span<double> derivatives)
        {
            var (position, shape) = At(parameters);
            if (!(Math.Abs(shape) < Farthest && Math.Abs(position) < 2 * Farthest))
            {
                residuals.Fill(double.NaN);
                return;
            }

            var slope = Exponential.Of(shape);
            Span<double> ordinates = stackalloc double[points.Count];
            Span<double> percents = stackalloc double[points.Count];
            Span<double> rises = stackalloc double[points.Count];
            ordinates.Clear();
            percents.Fill(100);
            rises.Clear();
            for (var i = 0; i < rising; i++)
            {
                ordinates[i] = slope * (points[i].LogSize - position);
            }

            net.Percents(ordinates[..rising], percents[..rising], rises[..rising]);
            for (var i = 0; i < points.Count; i++)
            {
                var u = points[i].Uncertainty ?? 1;
                residuals[i] = (points[i].Percent - percents[i]) / u;
                derivatives[i] = -slope * rises[i] / u;
                derivatives[points.Count + i] = ordinates[i] * rises[i] / u;
            }
        }
    }
}
