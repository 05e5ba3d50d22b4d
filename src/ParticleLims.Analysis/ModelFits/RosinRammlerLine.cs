using System.Globalization;
using ParticleLims.Analysis.Distributions;
using ParticleLims.Analysis.Findings;
using ParticleLims.Analysis.Quantities;

namespace ParticleLims.Analysis.ModelFits;

/// <summary>
/// ln ln(1/R) = n ln x - n ln x' by ordinary least squares through the points strictly between 0 and 100 %
/// (docs/science/rosin-rammler.md).
/// </summary>
internal static class RosinRammlerLine
{
    private const int FewPoints = 4;

    public static FittedModel? Fit(IReadOnlyList<CurvePoint> points, FindingLog log)
    {
        var usable = points.Where(point => point.MeasuredPercent > Ratio.Zero && point.MeasuredPercent < Ratio.Hundred).ToList();
        if (usable.Count < 2)
        {
            Missing(points.Count, log);
            return null;
        }

        var line = StraightLine.Through(usable.ConvertAll(point => (LogSize(point), Net.RosinRammler.Ordinate(point.MeasuredPercent))));
        var logSize = line.MeanX - (line.MeanY / line.Slope);
        if (!(line.Slope > 0) || !(Math.Abs(logSize) < 100))
        {
            log.Note(FindingCodes.NoFit, "No Rosin-Rammler line: the points do not rise with the aperture.");
            return null;
        }

        return Describe(line, logSize, points.Count - usable.Count);
    }

    /// <summary>Nobody expects a line through the one sieve of a one-sieve test.</summary>
    private static void Missing(int points, FindingLog log)
    {
        if (points > 1)
        {
            log.Note(FindingCodes.NoFit, "No Rosin-Rammler line: it needs two points between 0 % and 100 %.");
        }
    }

    private static FittedModel Describe(StraightLine line, double logSize, int leftOut)
    {
        var size = Exponential.Of(logSize);
        return new FittedModel
        {
            Model = Model.RosinRammler,
            Method = FitMethod.StraightLine,
            SizeMicrometres = size,
            Slope = line.Slope,
            Intercept = line.Intercept,
            SizeStandardError = line.Variance is { } variance ? size * Math.Sqrt(LogSizeVariance(line, variance)) : null,
            SlopeStandardError = line.Variance is { } s ? Math.Sqrt(s / line.SumXX) : null,
            RSquared = line.RSquared,
            PointsUsed = line.Count,
            PointsLeftOut = leftOut,
            Caution = line.Count < FewPoints
                ? string.Create(CultureInfo.InvariantCulture, $"Only {line.Count} points take part; a line through fewer than four says little.")
                : null,
        };
    }

    /// <summary>ln x' = mean(ln x) - mean(y) / n, and mean(y) and n are uncorrelated.</summary>
    private static double LogSizeVariance(StraightLine line, double variance)
    {
        var n2 = line.Slope * line.Slope;
        return (variance / (line.Count * n2)) + (line.MeanY * line.MeanY * variance / (n2 * n2 * line.SumXX));
    }

    private static double LogSize(CurvePoint point) => NaturalLogarithm.Of(Ratio.Of(point.Aperture.Nanometres, 1_000).ToDouble());
}
