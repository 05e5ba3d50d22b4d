using System.Buffers;
using System.Numerics;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace ParticleLims.Analysis.Uncertainty.Trials;

/// <summary>
/// The least and the greatest of many values, so many and some more, in no order. A sample tells about where the tails begin, a count whether they hold enough; only then are they taken out. How
/// many there are more hangs on the sample, which are the least and the greatest does not.
/// </summary>
internal readonly ref struct TrialTails
{
    private const int SampleSize = 4_096;

    /// <summary>How many standard deviations of the sample's share lie between a tail and its bound, so that it is too short once in thirty thousand.</summary>
    private const double FirstMargin = 4;

    private readonly double[] _bottom;
    private readonly double[] _top;
    private readonly int _bottoms;
    private readonly int _tops;

    private TrialTails(int bottoms, int tops)
    {
        // Room for three more, for four are written at once, of which the last alone may count. Borrowed, since a million trials have tails of half a megabyte each.
        (_bottoms, _tops) = (bottoms, tops);
        (_bottom, _top) = (ArrayPool<double>.Shared.Rent(bottoms + Vector256<double>.Count), ArrayPool<double>.Shared.Rent(tops + Vector256<double>.Count));
    }

    /// <summary>The least, in no order.</summary>
    public ReadOnlySpan<double> Bottom => _bottom.AsSpan(0, _bottoms);

    /// <summary>The greatest, in no order.</summary>
    public ReadOnlySpan<double> Top => _top.AsSpan(0, _tops);

    /// <summary>For every set of lanes where each of them goes, so that they come to stand together in front: two halves of a double are two places.</summary>
    private static ReadOnlySpan<int> ToFront =>
    [
        0, 1, 2, 3, 4, 5, 6, 7, 0, 1, 2, 3, 4, 5, 6, 7, 2, 3, 0, 1, 4, 5, 6, 7, 0, 1, 2, 3, 4, 5, 6, 7,
        4, 5, 0, 1, 2, 3, 6, 7, 0, 1, 4, 5, 2, 3, 6, 7, 2, 3, 4, 5, 0, 1, 6, 7, 0, 1, 2, 3, 4, 5, 6, 7,
        6, 7, 0, 1, 2, 3, 4, 5, 0, 1, 6, 7, 2, 3, 4, 5, 2, 3, 6, 7, 0, 1, 4, 5, 0, 1, 2, 3, 6, 7, 4, 5,
        4, 5, 6, 7, 0, 1, 2, 3, 0, 1, 4, 5, 6, 7, 2, 3, 2, 3, 4, 5, 6, 7, 0, 1, 0, 1, 2, 3, 4, 5, 6, 7,
    ];

    /// <summary>At least so many of the least and of the greatest, without a value between left out; the least and the greatest of all are known.</summary>
    public static TrialTails Of(ReadOnlySpan<double> values, int tail, double least, double most)
    {
        var sample = Sample(values, least, most);
        for (var margin = FirstMargin; ; margin *= 2)
        {
            var share = (double)tail / values.Length;
            var last = (int)Math.Ceiling((share * sample.Length) + (margin * Math.Sqrt(share * sample.Length)));
            var (low, high) = last < sample.Length ? (sample[last], sample[^(last + 1)]) : (most, least);
            var (bottoms, tops) = Count(values, low, high);
            if (bottoms >= tail && tops >= tail)
            {
                var tails = new TrialTails(bottoms, tops);
                tails.TakeOut(values, low, high);
                return tails;
            }
        }
    }

    /// <summary>Gives the room back.</summary>
    public void Dispose()
    {
        ArrayPool<double>.Shared.Return(_bottom);
        ArrayPool<double>.Shared.Return(_top);
    }

    /// <summary>Evenly from all over, in order.</summary>
    private static double[] Sample(ReadOnlySpan<double> values, double least, double most)
    {
        var every = Math.Max(1, values.Length / SampleSize);
        var sample = new double[values.Length / every];
        for (var i = 0; i < sample.Length; i++)
        {
            sample[i] = values[i * every];
        }

        var ordered = new double[sample.Length];
        ClassSort.Sort(sample, ordered, least, most, ..);
        return ordered;
    }

    private static (int Bottom, int Top) Count(ReadOnlySpan<double> values, double low, double high)
    {
        var vectors = MemoryMarshal.Cast<double, Vector256<double>>(values);
        var (bottoms, tops) = (Vector256<long>.Zero, Vector256<long>.Zero);
        foreach (var vector in vectors)
        {
            bottoms -= Vector256.LessThanOrEqual(vector, Vector256.Create(low)).AsInt64();
            tops -= Vector256.GreaterThanOrEqual(vector, Vector256.Create(high)).AsInt64();
        }

        var (bottom, top) = ((int)Vector256.Sum(bottoms), (int)Vector256.Sum(tops));
        foreach (var value in values[(vectors.Length * Vector256<double>.Count)..])
        {
            bottom += value <= low ? 1 : 0;
            top += value >= high ? 1 : 0;
        }

        return (bottom, top);
    }

    private void TakeOut(ReadOnlySpan<double> values, double low, double high)
    {
        var (below, above) = (0, 0);
        var vectors = MemoryMarshal.Cast<double, Vector256<double>>(values);
        var places = MemoryMarshal.Cast<int, Vector256<int>>(ToFront);
        foreach (var vector in vectors)
        {
            // The lanes that are meant are written, and behind them others; without a branch, which could not be foreseen.
            var (lows, highs) = (Vector256.LessThanOrEqual(vector, Vector256.Create(low)).ExtractMostSignificantBits(), Vector256.GreaterThanOrEqual(vector, Vector256.Create(high)).ExtractMostSignificantBits());
            Vector256.ShuffleNative(vector.AsInt32(), places[(int)lows]).AsDouble().StoreUnsafe(ref _bottom[below]);
            Vector256.ShuffleNative(vector.AsInt32(), places[(int)highs]).AsDouble().StoreUnsafe(ref _top[above]);
            below += BitOperations.PopCount(lows);
            above += BitOperations.PopCount(highs);
        }

        foreach (var value in values[(vectors.Length * Vector256<double>.Count)..])
        {
            (_bottom[below], _top[above]) = (value, value);
            below += value <= low ? 1 : 0;
            above += value >= high ? 1 : 0;
        }
    }
}
