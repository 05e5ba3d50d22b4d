using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
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
        var net = ModelWords.NetOf(model);
        var usable = new List<FitPoint>(points.Count);
        var places = new List<(double X, double Y)>(points.Count);
        foreach (var point in points)
        {
            if (point.IsBetween)
            {
                usable.Add(point);
                places.Add((point.LogSize, net.Ordinate(point.Share, point.Rest)));
            }
        }

        if (usable.Count < 2)
        {
            Missing(model, points.Count, log);
            return null;
        }

        var line = StraightLine.Through(places);
        var logSize = line.MeanX - (line.MeanY / line.Slope);
        if (!(line.Slope > (model == Model.LogNormal ? Flattest : 0)) || !(Math.Abs(logSize) < 100))
        {
            log.Note(FindingCodes.NoFit, $"No {ModelWords.NameOf(model)} line: the points do not rise with the aperture.");
            return null;
        }

        return FitCautions.Told(Describe(model, line, logSize, points, usable, places), points, hasUncertainties: false, settled: true);
    }

    /// <summary>A model's percentages at all points.</summary>
    public static double[] Fitted(Net net, IReadOnlyList<FitPoint> points, double logSize, double slope)
    {
        Span<Vector256<double>> fours = stackalloc Vector256<double>[2 * Net.Fours(points.Count)];
        fours.Clear();
        var ordinates = MemoryMarshal.Cast<Vector256<double>, double>(fours);
        var percents = fours[(fours.Length / 2)..];
        for (var i = 0; i < points.Count; i++)
        {
            ordinates[i] = slope * (points[i].LogSize - logSize);
        }

        net.Percents(fours[..percents.Length], percents);
        var fitted = new double[points.Count];
        MemoryMarshal.Cast<Vector256<double>, double>(percents)[..fitted.Length].CopyTo(fitted);
        return fitted;
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
        var fitted = Fitted(net, points, logSize, line.Slope);
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
            Aicc = InformationCriterion.OfResiduals(line.ResidualSum, line.Count, LogScale(net, places)),
            Residuals = Residuals(points, fitted, places, line.Slope, logSize),
            PointsUsed = line.Count,
            PointsLeftOut = points.Count - usable.Count,
            ShareBelowPercent = fitted[0],
            ShareAbovePercent = 100 - fitted[^1],
        };
    }

    private static FitResidual[] Residuals(IReadOnlyList<FitPoint> points, double[] fitted, List<(double X, double Y)> places, double slope, double logSize)
    {
        var (residuals, used) = (new FitResidual[places.Count], 0);
        for (var i = 0; i < points.Count; i++)
        {
            if (points[i].IsBetween)
            {
                var (x, y) = places[used];
                residuals[used++] = new FitResidual { Aperture = points[i].Aperture, PassingPercent = points[i].Percent - fitted[i], Minimised = y - (slope * (x - logSize)) };
            }
        }

        return residuals;
    }

    /// <summary>The sum of ln(dQ/dy) where the points lie, Q in percent.</summary>
    private static double LogScale(Net net, List<(double X, double Y)> places)
    {
        var sum = 0.0;
        foreach (var (_, ordinate) in places)
        {
            var slope = net.Slope(ordinate);
            sum += NaturalLogarithm.Of(slope > 0 ? slope : net.Percent(ordinate, out _));
        }

        return sum;
    }

    /// <summary>ln of the position = mean(ln x) - mean(y) / slope, and mean(y) and the slope are uncorrelated.</summary>
    private static double LogSizeVariance(StraightLine line, double variance)
    {
        var n2 = line.Slope * line.Slope;
        return (variance / (line.Count * n2)) + (line.MeanY * line.MeanY * variance / (n2 * n2 * line.SumXX));
    }
}
