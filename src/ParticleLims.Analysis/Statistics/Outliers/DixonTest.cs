using System.Collections.Immutable;
using ParticleLims.Analysis.Statistics.Arithmetic;

namespace ParticleLims.Analysis.Statistics.Outliers;

/// <summary>
/// Dixon's Q: the gap of the extreme value over the range, r10, looked for at either end (docs/science/dixon-test.md). Source: Rorabacher, Analytical Chemistry 63 (1991) 139, table 1,
/// as quoted publicly; two entries of the quotation (n = 30 at 95 %, n = 4 at 99 %) were replaced by simulated values, since they do not fit.
/// </summary>
public static class DixonTest
{
    private static readonly ImmutableArray<double> Ten =
    [
        0.941, 0.765, 0.642, 0.560, 0.507, 0.468, 0.437, 0.412, 0.392, 0.376, 0.361, 0.349, 0.338, 0.329, 0.320, 0.313, 0.306, 0.300, 0.295, 0.290, 0.285, 0.281, 0.277,
        0.273, 0.269, 0.266, 0.263, 0.260,
    ];

    private static readonly ImmutableArray<double> Five =
    [
        0.970, 0.829, 0.710, 0.625, 0.568, 0.526, 0.493, 0.466, 0.444, 0.426, 0.410, 0.396, 0.384, 0.374, 0.365, 0.356, 0.349, 0.342, 0.337, 0.331, 0.326, 0.321, 0.317,
        0.312, 0.308, 0.305, 0.301, 0.298,
    ];

    private static readonly ImmutableArray<double> One =
    [
        0.994, 0.921, 0.821, 0.740, 0.680, 0.634, 0.598, 0.568, 0.542, 0.522, 0.503, 0.488, 0.475, 0.463, 0.452, 0.442, 0.433, 0.425, 0.418, 0.411, 0.404, 0.399, 0.393,
        0.388, 0.384, 0.380, 0.376, 0.372,
    ];

    /// <summary>The test of 3 to 30 values. Null if all are equal.</summary>
    /// <param name="values">The values in any order.</param>
    /// <param name="alpha">0.10, 0.05 or 0.01, shared by both ends.</param>
    /// <exception cref="ArgumentException">A number of values or an alpha without a row in the table; a value that is not a number up to ±1e100.</exception>
    public static OutlierResult? Of(IReadOnlyList<double> values, double alpha)
    {
        Given.Values(values, 3, nameof(values));
        var critical = CriticalValue(values.Count, alpha);
        var order = Enumerable.Range(0, values.Count).OrderBy(i => values[i]).ToList();
        var range = values[order[^1]] - values[order[0]];
        if (range <= 0)
        {
            return null;
        }

        var (low, high) = (values[order[1]] - values[order[0]], values[order[^1]] - values[order[^2]]);
        var q = Math.Max(low, high) / range;
        return new OutlierResult { Statistic = q, Critical = critical, Alpha = alpha, Suspects = [low > high ? order[0] : order[^1]], IsOutlier = q > critical };
    }

    /// <summary>The critical Q of the table, without unit.</summary>
    /// <param name="count">3 to 30 values.</param>
    /// <param name="alpha">0.10, 0.05 or 0.01.</param>
    /// <exception cref="ArgumentOutOfRangeException">A number or an alpha without a row in the table.</exception>
    public static double CriticalValue(int count, double alpha)
    {
        var column = alpha switch
        {
            0.10 => Ten,
            0.05 => Five,
            0.01 => One,
            _ => throw new ArgumentOutOfRangeException(nameof(alpha), alpha, "The table has 0.10, 0.05 and 0.01."),
        };
        return count is >= 3 and <= 30 ? column[count - 3] : throw new ArgumentOutOfRangeException(nameof(count), count, "The table has 3 to 30 values.");
    }
}
