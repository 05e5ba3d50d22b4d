using System.Globalization;

namespace ParticleLims.Pictures.Scales;

/// <summary>A logarithmic scale from a lowest to a highest value, laid over a stretch of the surface.</summary>
public sealed class LogScale
{
    /// <summary>The least ratio of highest to lowest: with it at least two of the labels 1, 2, 5, 10, ... always lie inside.</summary>
    public const double LeastRatio = 5;

    private const double Margin = 1.22;

    // A label with more zeros is written as a power of ten.
    private const int LongestLabel = 6;

    private readonly double _from;
    private readonly double _unitsPerDecade;

    /// <summary>A scale from <paramref name="lowest"/> at <paramref name="from"/> to <paramref name="highest"/> at <paramref name="to"/>.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not finite, not above zero, or the highest not above the lowest.</exception>
    public LogScale(double lowest, double highest, double from, double to)
    {
        if (!double.IsFinite(lowest) || lowest <= 0)
        {
            throw new ArgumentOutOfRangeException(nameof(lowest), lowest, "A logarithmic scale begins above zero.");
        }

        if (!double.IsFinite(highest) || highest <= lowest)
        {
            throw new ArgumentOutOfRangeException(nameof(highest), highest, "A scale ends above its beginning.");
        }

        (Lowest, Highest, _from) = (lowest, highest, from);
        _unitsPerDecade = (to - from) / Math.Log10(highest / lowest);
    }

    /// <summary>The value at the beginning.</summary>
    public double Lowest { get; }

    /// <summary>The value at the end.</summary>
    public double Highest { get; }

    /// <summary>A scale that holds all the values with a margin, and at least the ratio <see cref="LeastRatio"/>.</summary>
    /// <param name="values">Values above zero; none gives a scale from 10 to 1000.</param>
    /// <param name="from">Where the scale begins on the surface.</param>
    /// <param name="to">Where it ends.</param>
    public static LogScale Holding(IReadOnlyCollection<double> values, double from, double to)
    {
        ArgumentNullException.ThrowIfNull(values);
        if (values.Count == 0)
        {
            return new LogScale(10, 1000, from, to);
        }

        var lowest = values.Min() / Margin;
        var highest = values.Max() * Margin;
        var missing = LeastRatio / (highest / lowest);
        return missing <= 1
            ? new LogScale(lowest, highest, from, to)
            : new LogScale(lowest / Math.Sqrt(missing) / 1.0001, highest * Math.Sqrt(missing) * 1.0001, from, to);
    }

    /// <summary>Where the value stands on the surface.</summary>
    public double Position(double value) => _from + (Math.Log10(value / Lowest) * _unitsPerDecade);

    /// <summary>
    /// The ticks, rising: minor ones at 1 to 9 of every decade, labels at 1, 2 and 5; at 1 alone where labels of that width would touch; and where even those
    /// would, at every second, third, ... power of ten.
    /// </summary>
    public IReadOnlyList<Tick> Ticks(double labelWidth)
    {
        var width = Math.Abs(_unitsPerDecade);
        var tight = width * Math.Log10(2) < labelWidth;
        var every = Math.Max(1, (int)Math.Ceiling(labelWidth / width));
        var decade = (int)Math.Floor(Math.Log10(Lowest));
        var last = (int)Math.Floor(Math.Log10(Highest));
        var ticks = new List<Tick>();
        for (; decade <= last; decade++)
        {
            var digits = every == 1 ? 9 : 1;
            ticks.AddRange(Enumerable.Range(1, digits).Select(digit => At(digit, decade, tight, decade % every == 0)).Where(tick => tick.Value >= Lowest && tick.Value <= Highest));
        }

        // A short scale may hold no power of ten at all; then its 2 and 5 are better than an empty axis.
        return tight && every == 1 && ticks.Count(tick => tick.IsMajor) < 2 ? Ticks(0) : ticks;
    }

    private static Tick At(int digit, int decade, bool onlyTens, bool isLabelled)
    {
        var value = digit * Math.Pow(10, decade);
        var labelled = isLabelled && (digit == 1 || (!onlyTens && digit is 2 or 5));
        return new Tick(value, labelled ? Label(digit, decade) : string.Empty);
    }

    private static string Label(int digit, int decade) => decade switch
    {
        > LongestLabel or < -LongestLabel => string.Create(CultureInfo.InvariantCulture, $"{digit}e{decade}"),
        >= 0 => digit.ToString(CultureInfo.InvariantCulture) + new string('0', decade),
        _ => "0." + new string('0', -decade - 1) + digit.ToString(CultureInfo.InvariantCulture),
    };
}
