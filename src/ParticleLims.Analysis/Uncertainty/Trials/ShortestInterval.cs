using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace ParticleLims.Analysis.Uncertainty.Trials;

/// <summary>
/// The shortest coverage interval of trials (JCGM 101:2008, 7.7 and 5.3.4): of all pairs of values with so many between them the nearest. Only the two tails need to be in order; a count of
/// values by classes finds where they begin, and where in them each value belongs.
/// </summary>
internal static class ShortestInterval
{
    private const int Classes = 16_384;
    private const double LeastWidth = 1e-290;

    /// <summary>The interval; the values are finite and at least two.</summary>
    public static (double Low, double High) Of(ReadOnlySpan<double> values, double coverage)
    {
        var (least, most) = VectorSums.Ends(values);
        var within = (int)((coverage * values.Length) + 0.5);
        var tail = Math.Max(1, values.Length - within);
        if (!(most - least > LeastWidth))
        {
            return (least, most);
        }

        var scale = Classes / (most - least);
        var starts = Starts(values, least, scale);
        var (bottom, top) = Tails(values, least, scale, starts, tail);
        return Nearest(bottom.AsSpan(0, tail), top.AsSpan(top.Length - tail));
    }

    private static (double Low, double High) Nearest(ReadOnlySpan<double> bottom, ReadOnlySpan<double> top)
    {
        var best = 0;
        for (var r = 1; r < bottom.Length; r++)
        {
            if (top[r] - bottom[r] < top[best] - bottom[best])
            {
                best = r;
            }
        }

        return (bottom[best], top[best]);
    }

    private static int ClassOf(double value, double least, double scale) => Math.Min(Classes - 1, (int)((value - least) * scale));

    /// <summary>How many values lie in all classes before each; one more for the end.</summary>
    private static int[] Starts(ReadOnlySpan<double> values, double least, double scale)
    {
        var starts = new int[Classes + 1];
        foreach (var value in values)
        {
            starts[ClassOf(value, least, scale) + 1]++;
        }

        for (var i = 1; i < starts.Length; i++)
        {
            starts[i] += starts[i - 1];
        }

        return starts;
    }

    /// <summary>The so many least values and a few more, and the so many greatest after a few more, both in order.</summary>
    private static (double[] Bottom, double[] Top) Tails(ReadOnlySpan<double> values, double least, double scale, int[] starts, int tail)
    {
        var (until, from) = (FirstAtLeast(starts, tail), FirstAtLeast(starts, values.Length - tail + 1) - 1);
        var (bottom, top) = (new double[starts[until]], new double[values.Length - starts[from]]);
        var next = starts.AsSpan().ToArray();
        var nextOfTop = starts.AsSpan().ToArray();
        var vectors = MemoryMarshal.Cast<double, Vector256<double>>(values);
        for (var i = 0; i < vectors.Length; i++)
        {
            var place = (vectors[i] - Vector256.Create(least)) * scale;
            if (Vector256.LessThan(place, Vector256.Create((double)until)) is var low && low.ExtractMostSignificantBits() != 0)
            {
                Put(bottom, next, 0, vectors[i], place, low.ExtractMostSignificantBits());
            }

            if (Vector256.GreaterThanOrEqual(place, Vector256.Create((double)from)) is var high && high.ExtractMostSignificantBits() != 0)
            {
                Put(top, nextOfTop, starts[from], vectors[i], place, high.ExtractMostSignificantBits());
            }
        }

        for (var i = vectors.Length * Vector256<double>.Count; i < values.Length; i++)
        {
            var place = Vector256.Create((values[i] - least) * scale);
            Put(bottom, next, 0, Vector256.Create(values[i]), place, place[0] < until ? 1u : 0);
            Put(top, nextOfTop, starts[from], Vector256.Create(values[i]), place, place[0] >= from ? 1u : 0);
        }

        SortClasses(bottom, starts.AsSpan(0, until + 1), 0);
        SortClasses(top, starts.AsSpan(from), starts[from]);
        return (bottom, top);
    }

    /// <summary>The first class before which there are at least so many values.</summary>
    private static int FirstAtLeast(int[] starts, int wanted)
    {
        var index = Array.BinarySearch(starts, wanted);
        index = index < 0 ? ~index : index;
        while (starts[index - 1] >= wanted)
        {
            index--;
        }

        return index;
    }

    private static void Put(double[] tail, int[] next, int first, Vector256<double> values, Vector256<double> places, uint lanes)
    {
        for (var lane = 0; lanes != 0; lane++, lanes >>= 1)
        {
            if ((lanes & 1) != 0)
            {
                tail[next[Math.Min(Classes - 1, (int)places[lane])]++ - first] = values[lane];
            }
        }
    }

    private static void SortClasses(double[] tail, ReadOnlySpan<int> starts, int first)
    {
        for (var i = 1; i < starts.Length; i++)
        {
            if (starts[i] - starts[i - 1] > 1)
            {
                tail.AsSpan((starts[i - 1] - first)..(starts[i] - first)).Sort();
            }
        }
    }
}
