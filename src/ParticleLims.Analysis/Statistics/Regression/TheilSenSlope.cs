using ParticleLims.Analysis.Distributions.Functions;
using ParticleLims.Analysis.Statistics.Arithmetic;
using ParticleLims.Analysis.Statistics.Summaries;

namespace ParticleLims.Analysis.Statistics.Regression;

/// <summary>
/// The drift of a series as the median of the slopes of all pairs of points, which a few outliers do not move, with an interval from their ranks
/// (docs/science/theil-sen-slope.md). Source: Sen, Journal of the American Statistical Association 63 (1968) 1379; ties by Kendall, Rank Correlation Methods, chapter 4.
/// </summary>
public sealed record TheilSenSlope
{
    private TheilSenSlope()
    {
    }

    /// <summary>The median slope, in the ordinate's unit over that of the abscissa.</summary>
    public double Slope { get; private init; }

    /// <summary>median(y) - slope median(x), in the ordinate's unit.</summary>
    public double Intercept { get; private init; }

    /// <summary>The interval of the slope.</summary>
    public Interval SlopeInterval { get; private init; } = null!;

    /// <summary>Whether the interval excludes a slope of zero.</summary>
    public bool HasDrift => !SlopeInterval.Contains(0);

    /// <summary>The slope of three points or more, of which at least two differ in x.</summary>
    /// <param name="x">Often days.</param>
    /// <param name="y">As many as x.</param>
    /// <param name="confidence">Between 0 and 1.</param>
    /// <exception cref="ArgumentException">Too few points or more than 5 000, lists of different length, all x the same, or a value out of range.</exception>
    public static TheilSenSlope Of(IReadOnlyList<double> x, IReadOnlyList<double> y, double confidence)
    {
        var given = Given.Values(x, 3, nameof(x)).Length;
        Given.Values(y, 3, nameof(y));
        Given.SameLength(x, y, nameof(y));
        Given.Probability(confidence, nameof(confidence));
        if (given > 5_000)
        {
            throw new ArgumentException("At most 5 000 points are compared in pairs.", nameof(x));
        }

        var slopes = Slopes(x, y);
        Given.Enough(slopes, 1, nameof(x));
        var slope = Median.Of(slopes);
        return new TheilSenSlope
        {
            Slope = slope,
            Intercept = Median.Of(y) - (slope * Median.Of(x)),
            SlopeInterval = IntervalOf(slopes, Math.Sqrt(VarianceOfKendallsSum(x, y)), confidence),
        };
    }

    /// <summary>Kendall's S of independent x and y has this variance, less what ties take away.</summary>
    internal static double VarianceOfKendallsSum(IReadOnlyList<double> x, IReadOnlyList<double> y) =>
        Math.Max(0, Cubic(x.Count) - Ties(x) - Ties(y)) / 18;

    private static double Ties(IReadOnlyList<double> values) => values.GroupBy(value => value).Sum(group => Cubic(group.Count()));

    private static double Cubic(double n) => n * (n - 1) * ((2 * n) + 5);

    private static List<double> Slopes(IReadOnlyList<double> x, IReadOnlyList<double> y)
    {
        var slopes = new List<double>();
        for (var i = 0; i < x.Count; i++)
        {
            for (var j = i + 1; j < x.Count; j++)
            {
                if (x[i] != x[j])
                {
                    slopes.Add((y[j] - y[i]) / (x[j] - x[i]));
                }
            }
        }

        slopes.Sort();
        return slopes;
    }

    private static Interval IntervalOf(List<double> slopes, double deviation, double confidence)
    {
        var half = NormalDistribution.Quantile((1 + confidence) / 2, (1 - confidence) / 2) * deviation;
        var low = Math.Round((slopes.Count - half) / 2) - 1;
        var high = Math.Round((slopes.Count + half) / 2);
        return new Interval
        {
            Low = slopes[(int)Math.Clamp(low, 0, slopes.Count - 1)],
            High = slopes[(int)Math.Clamp(high, 0, slopes.Count - 1)],
            Confidence = confidence,
        };
    }
}
