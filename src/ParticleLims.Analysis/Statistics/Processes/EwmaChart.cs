using System.Collections.Immutable;
using ParticleLims.Analysis.Statistics.Arithmetic;

namespace ParticleLims.Analysis.Statistics.Processes;

/// <summary>
/// The exponentially weighted moving average z = λ x + (1 - λ) z, which shows small lasting shifts sooner than single values do
/// (docs/science/ewma-chart.md). Source: NIST/SEMATECH e-Handbook 6.3.2.4.
/// </summary>
public sealed record EwmaChart
{
    private EwmaChart()
    {
    }

    /// <summary>The averages, one for each value, in the values' unit.</summary>
    public ImmutableArray<double> Averages { get; private init; }

    /// <summary>The limits of each average.</summary>
    public ImmutableArray<ControlLimits> Limits { get; private init; }

    /// <summary>The places, from zero, of averages outside their limits.</summary>
    public ImmutableArray<int> Outside { get; private init; }

    /// <summary>The chart of values about a target.</summary>
    /// <param name="values">One or more.</param>
    /// <param name="target">Where the process should be, in the values' unit; the average starts there.</param>
    /// <param name="sigma">The standard deviation of one value, in the values' unit; above zero.</param>
    /// <param name="weight">λ, above 0 and at most 1; 0.2 to 0.3 is usual.</param>
    /// <param name="width">Half the distance of the limits in standard deviations of the average; 3 is usual.</param>
    /// <param name="settled">Whether all limits are those of a long series; otherwise they open from the first value on, as exact.</param>
    /// <exception cref="ArgumentException">No value, or a number out of range.</exception>
    public static EwmaChart Of(IReadOnlyList<double> values, double target, double sigma, double weight = 0.2, double width = 3, bool settled = false)
    {
        Given.Values(values, 1, nameof(values));
        Given.Value(target, nameof(target));
        Given.Positive(sigma, nameof(sigma));
        Given.Positive(width, nameof(width));
        if (weight is not (> 1e-6 and <= 1))
        {
            throw new ArgumentOutOfRangeException(nameof(weight), weight, "The weight of the newest value lies above 0.000001 and at most at 1.");
        }

        var averages = AveragesOf(values, target, weight);
        var limits = values.Select((_, i) => LimitsOf(target, width * sigma * Spread(weight, settled ? null : i + 1))).ToImmutableArray();
        return new EwmaChart
        {
            Averages = averages,
            Limits = limits,
            Outside = [.. Enumerable.Range(0, averages.Length).Where(i => limits[i].IsOutside(averages[i]))],
        };
    }

    /// <summary>The standard deviation of an average over that of a value: √(λ/(2-λ) (1 - (1-λ)²ⁿ)), without the last factor for a long series.</summary>
    internal static double Spread(double weight, int? count)
    {
        var forgotten = 1.0;
        for (var i = 0; i < count && forgotten > 1e-20; i++)
        {
            forgotten *= (1 - weight) * (1 - weight);
        }

        return Math.Sqrt(weight / (2 - weight) * (count is null ? 1 : 1 - forgotten));
    }

    private static ImmutableArray<double> AveragesOf(IReadOnlyList<double> values, double start, double weight)
    {
        var averages = ImmutableArray.CreateBuilder<double>(values.Count);
        var average = start;
        foreach (var value in values)
        {
            average = (weight * value) + ((1 - weight) * average);
            averages.Add(average);
        }

        return averages.MoveToImmutable();
    }

    private static ControlLimits LimitsOf(double target, double half) => new() { Lower = target - half, Centre = target, Upper = target + half };
}
