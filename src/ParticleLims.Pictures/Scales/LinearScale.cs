using System.Globalization;

namespace ParticleLims.Pictures.Scales;

/// <summary>An even scale from a lowest to a highest value, laid over a stretch of the surface.</summary>
public sealed class LinearScale
{
    // Differences below it are the noise of the arithmetic.
    private const double LeastMargin = 1e-10;
    private const int LongestLabel = 7;
    private readonly double _from;
    private readonly double _unitsPerValue;

    /// <summary>A scale from <paramref name="lowest"/> at <paramref name="from"/> to <paramref name="highest"/> at <paramref name="to"/>.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not finite, or the highest not above the lowest.</exception>
    public LinearScale(double lowest, double highest, double from, double to)
    {
        if (!double.IsFinite(lowest))
        {
            throw new ArgumentOutOfRangeException(nameof(lowest), lowest, "A scale begins at a finite value.");
        }

        if (!double.IsFinite(highest) || highest <= lowest)
        {
            throw new ArgumentOutOfRangeException(nameof(highest), highest, "A scale ends above its beginning.");
        }

        (Lowest, Highest, _from) = (lowest, highest, from);
        _unitsPerValue = (to - from) / (highest - lowest);
    }

    /// <summary>The value at the beginning.</summary>
    public double Lowest { get; }

    /// <summary>The value at the end.</summary>
    public double Highest { get; }

    /// <summary>A scale that holds all the values with a twelfth of their range as margin; equal values get a small range round them.</summary>
    public static LinearScale Holding(IReadOnlyCollection<double> values, double from, double to)
    {
        ArgumentNullException.ThrowIfNull(values);
        if (values.Count == 0)
        {
            return new LinearScale(0, 1, from, to);
        }

        var (lowest, highest) = (values.Min(), values.Max());
        var margin = (highest - lowest) / 12;
        if (margin <= Math.Max(Math.Abs(lowest), Math.Abs(highest)) * 1e-12 || margin < LeastMargin)
        {
            margin = Math.Max(Math.Abs(highest) * 0.01, 1e-6);
        }

        return new LinearScale(lowest - margin, highest + margin, from, to);
    }

    /// <summary>Where the value stands on the surface.</summary>
    public double Position(double value) => _from + ((value - Lowest) * _unitsPerValue);

    /// <summary>At most so many labelled ticks at steps of 1, 2 or 5 times a power of ten, rising.</summary>
    public IReadOnlyList<Tick> Ticks(int most)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(most, 2);
        var (step, decimals) = Step((Highest - Lowest) / most);
        var first = (long)Math.Ceiling((Lowest / step) - 1e-9);
        var last = (long)Math.Floor((Highest / step) + 1e-9);
        var largest = Math.Max(Math.Abs(Lowest), Math.Abs(Highest));
        var format = decimals > LongestLabel || largest >= Math.Pow(10, LongestLabel) ? "0.#####E+0" : "F" + decimals.ToString(CultureInfo.InvariantCulture);
        return [.. Sequence(first, last).Select(n => new Tick(n * step, (n * step).ToString(format, CultureInfo.InvariantCulture)))];
    }

    private static IEnumerable<long> Sequence(long first, long last)
    {
        for (var n = first; n <= last; n++)
        {
            yield return n;
        }
    }

    private static (double Step, int Decimals) Step(double least)
    {
        var decade = (int)Math.Floor(Math.Log10(least));
        foreach (var digit in (ReadOnlySpan<int>)[1, 2, 5])
        {
            if (digit * Math.Pow(10, decade) >= least)
            {
                return (digit * Math.Pow(10, decade), Math.Max(0, -decade));
            }
        }

        return (Math.Pow(10, decade + 1), Math.Max(0, -decade - 1));
    }
}
