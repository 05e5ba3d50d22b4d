using ParticleLims.Analysis.Statistics.Arithmetic;
using ParticleLims.Analysis.Statistics.Probabilities;
using ParticleLims.Analysis.Statistics.Summaries;

namespace ParticleLims.Analysis.Statistics.Outliers;

/// <summary>
/// Grubbs' tests for one outlier and for two on the same side (docs/science/grubbs-test.md). Source: Grubbs, Annals of Mathematical Statistics 21 (1950) 27, and Technometrics 11
/// (1969) 1; the critical value of one outlier from Student's t as in NIST/SEMATECH e-Handbook 1.3.5.17.1.
/// </summary>
public static class GrubbsTest
{
    /// <summary>G = |x - mean| / s against its critical value. Null if all values are equal: then none is out.</summary>
    /// <param name="values">Three or more.</param>
    /// <param name="alpha">Above 0, below 1; for <see cref="OutlierSide.Either"/> shared by both ends.</param>
    /// <param name="side">Where to look.</param>
    /// <exception cref="ArgumentException">Too few values or one that is not a number up to ±1e100; alpha out of range.</exception>
    public static OutlierResult? One(IReadOnlyList<double> values, double alpha, OutlierSide side)
    {
        Given.Enough(values, 3, nameof(values));
        var summary = SampleSummary.Of(values);
        var critical = CriticalValue(values.Count, alpha, side);
        if (summary.StandardDeviation is not (> 0 and { } deviation))
        {
            return null;
        }

        var suspect = Suspect(values, summary.Mean, side);
        var g = Math.Abs(values[suspect] - summary.Mean) / deviation;
        return new OutlierResult { Statistic = g, Critical = critical, Alpha = alpha, Suspects = [suspect], IsOutlier = g > critical };
    }

    /// <summary>The critical G, without unit: (n-1)/√n √(t² / (n-2+t²)), t exceeded with probability α/n, or α/(2n) for either side.</summary>
    /// <param name="count">How many values: 3 to 10 000.</param>
    /// <param name="alpha">Above 0, below 1.</param>
    /// <param name="side">Where the outlier is looked for.</param>
    /// <exception cref="ArgumentOutOfRangeException">The count or alpha is out of range.</exception>
    public static double CriticalValue(int count, double alpha, OutlierSide side)
    {
        if (count is < 3 or > 10_000)
        {
            throw new ArgumentOutOfRangeException(nameof(count), count, "The test is for 3 to 10 000 values.");
        }

        var tail = Given.Probability(alpha, nameof(alpha)) / count / (side == OutlierSide.Either ? 2 : 1);
        var t = StudentDistribution.QuantileAbove(tail, count - 2);
        return (count - 1) / Math.Sqrt(count) * Math.Sqrt(t * t / (count - 2 + (t * t)));
    }

    /// <summary>
    /// The sum of squares without the two extreme values over the whole one; small is strange. Null if all values are equal. For <see cref="OutlierSide.Either"/> the end with
    /// the smaller quotient is taken at half of alpha.
    /// </summary>
    /// <param name="values">4 to 30 values.</param>
    /// <param name="alpha">0.01 or 0.05, for which there is a table.</param>
    /// <param name="side">Where to look.</param>
    /// <exception cref="ArgumentException">A number of values or an alpha without a row in the table; a value that is not a number up to ±1e100.</exception>
    public static OutlierResult? Two(IReadOnlyList<double> values, double alpha, OutlierSide side)
    {
        var given = Given.Values(values, 4, nameof(values));
        var critical = GrubbsPairTable.CriticalValue(values.Count, alpha, side);
        var whole = Sums.SquaresAbout(given, Sums.Mean(given));
        if (whole.High <= 0)
        {
            return null;
        }

        var order = Enumerable.Range(0, values.Count).OrderBy(i => values[i]).ToList();
        int[][] ends = side switch
        {
            OutlierSide.Lowest => [[order[0], order[1]]],
            OutlierSide.Highest => [[order[^2], order[^1]]],
            _ => [[order[0], order[1]], [order[^2], order[^1]]],
        };
        var (suspects, quotient) = ends.Select(pair => (pair, Without(given, pair, whole))).MinBy(end => end.Item2);
        return new OutlierResult { Statistic = quotient, Critical = critical, Alpha = alpha, Suspects = [.. suspects], IsOutlier = quotient < critical };
    }

    private static double Without(DoubleDouble[] values, int[] pair, DoubleDouble whole)
    {
        var rest = values.Where((_, i) => !pair.Contains(i)).ToArray();
        return (Sums.SquaresAbout(rest, Sums.Mean(rest)) / whole).ToDouble();
    }

    private static int Suspect(IReadOnlyList<double> values, double mean, OutlierSide side) => Enumerable.Range(0, values.Count).MaxBy(i => side switch
    {
        OutlierSide.Lowest => mean - values[i],
        OutlierSide.Highest => values[i] - mean,
        _ => Math.Abs(values[i] - mean),
    });
}
