using System.Collections.Immutable;
using ParticleLims.Analysis.Statistics.Arithmetic;

namespace ParticleLims.Analysis.Statistics.Processes;

/// <summary>
/// The tabular cumulative sum: how far the values have gone from the target in one direction, beyond what is allowed for each
/// (docs/science/cusum-chart.md). Source: Page, Biometrika 41 (1954) 100; Montgomery, Introduction to Statistical Quality Control, chapter 9; NIST/SEMATECH e-Handbook 6.3.2.3.
/// </summary>
public sealed record CusumChart
{
    private CusumChart()
    {
    }

    /// <summary>C⁺ after each value: max(0, C⁺ + x - target - kσ), in the values' unit.</summary>
    public ImmutableArray<double> High { get; private init; }

    /// <summary>C⁻ after each value: max(0, C⁻ + target - kσ - x), in the values' unit.</summary>
    public ImmutableArray<double> Low { get; private init; }

    /// <summary>The interval of decision hσ, in the values' unit.</summary>
    public double Decision { get; private init; }

    /// <summary>Where a sum passed the interval of decision.</summary>
    public ImmutableArray<CusumSignal> Signals { get; private init; }

    /// <summary>The chart of values about a target.</summary>
    /// <param name="values">One or more.</param>
    /// <param name="target">Where the process should be, in the values' unit.</param>
    /// <param name="sigma">The standard deviation of one value, in the values' unit; above zero.</param>
    /// <param name="allowance">k in standard deviations, half the shift to be found; 0.5 is usual.</param>
    /// <param name="decision">h in standard deviations; 4 or 5 is usual.</param>
    /// <exception cref="ArgumentException">No value, or a number out of range.</exception>
    public static CusumChart Of(IReadOnlyList<double> values, double target, double sigma, double allowance = 0.5, double decision = 5)
    {
        Given.Values(values, 1, nameof(values));
        Given.Value(target, nameof(target));
        Given.Positive(sigma, nameof(sigma));
        Given.Positive(allowance, nameof(allowance));
        Given.Positive(decision, nameof(decision));
        var distances = values.Select(value => value - target).ToList();
        var (slack, interval) = (allowance * sigma, decision * sigma);
        var high = SumsOf(distances, slack);
        var low = SumsOf(distances.ConvertAll(distance => -distance), slack);
        return new CusumChart
        {
            High = [.. high.Select(sum => sum.Sum)],
            Low = [.. low.Select(sum => sum.Sum)],
            Decision = interval,
            Signals = [.. Passing(high, interval, target, slack, 1).Concat(Passing(low, interval, target, slack, -1)).OrderBy(signal => signal.Index)],
        };
    }

    private static List<(double Sum, int Run)> SumsOf(List<double> distances, double slack)
    {
        var sums = new List<(double Sum, int Run)>(distances.Count);
        var (sum, run) = (0.0, 0);
        foreach (var distance in distances)
        {
            sum = Math.Max(0, sum + distance - slack);
            run = sum > 0 ? run + 1 : 0;
            sums.Add((sum, run));
        }

        return sums;
    }

    private static IEnumerable<CusumSignal> Passing(List<(double Sum, int Run)> sums, double interval, double target, double slack, int direction) =>
        sums.Select((sum, i) => (sum.Sum, sum.Run, Index: i)).Where(sum => sum.Sum > interval).Select(sum => new CusumSignal
        {
            Index = sum.Index,
            IsUpward = direction > 0,
            FirstIndex = sum.Index - sum.Run + 1,
            EstimatedMean = target + (direction * (slack + (sum.Sum / sum.Run))),
        });
}
