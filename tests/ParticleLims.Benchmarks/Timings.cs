using System.Diagnostics;
using System.Globalization;

namespace ParticleLims.Benchmarks;

/// <summary>Times of one kind of thing, in the order in which they were taken.</summary>
/// <param name="name">What was timed.</param>
internal sealed class Timings(string name)
{
    private readonly List<double> milliseconds = [];

    /// <summary>How many.</summary>
    public int Count => milliseconds.Count;

    /// <summary>The middle one in ms.</summary>
    public double Median => Quantile(milliseconds, 0.5);

    /// <summary>Adds what has passed since a timestamp of <see cref="Stopwatch"/>.</summary>
    public void AddSince(long started) => Add(Stopwatch.GetElapsedTime(started));

    /// <summary>Adds one.</summary>
    public void Add(TimeSpan time) => milliseconds.Add(time.TotalMilliseconds);

    /// <summary>One line with all that is worth knowing.</summary>
    public override string ToString() => string.Create(
        CultureInfo.InvariantCulture,
        $"{name,-58} n {Count,4}   median {Median,8:0.00} ms   p95 {Quantile(milliseconds, 0.95),8:0.00}   min {milliseconds.Min(),8:0.00}   max {milliseconds.Max(),8:0.00}");

    /// <summary>How the median of the last quarter stands to that of the first: 1 when it does not grow with what is stored.</summary>
    public double LastQuarterToFirst()
    {
        var quarter = Math.Max(1, Count / 4);
        return Quantile([.. milliseconds.TakeLast(quarter)], 0.5) / Quantile([.. milliseconds.Take(quarter)], 0.5);
    }

    /// <summary>How many times longer this takes than something else measured in the same run.</summary>
    public string Against(Timings other) => string.Create(CultureInfo.InvariantCulture, $"{name} / {other.Name} = {Median / other.Median:0.00} (medians of one run)");

    private string Name => name;

    // The nearest rank: a value that was measured, none in between.
    private static double Quantile(List<double> values, double part) => values.Order().ElementAt((int)Math.Ceiling(part * values.Count) - 1);
}
