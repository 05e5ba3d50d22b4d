namespace ParticleLims.Analysis.Uncertainty.Trials;

/// <summary>
/// The shortest coverage interval of trials (JCGM 101:2008, 7.7 and 5.3.4): of all pairs of values with so many between them the nearest. Only the two tails need to be in order; a count of
/// values by classes finds where they begin.
/// </summary>
internal static class ShortestInterval
{
    private const int Classes = 4096;

    /// <summary>The interval; the values are finite and at least two.</summary>
    public static (double Low, double High) Of(ReadOnlySpan<double> values, double coverage)
    {
        var (least, most) = Ends(values);
        var within = (int)((coverage * values.Length) + 0.5);
        var tail = Math.Max(1, values.Length - within);
        if (!(most > least))
        {
            return (least, most);
        }

        var counts = Count(values, least, most);
        var bottom = Below(values, Threshold(counts, tail), least, most);
        var top = Above(values, Classes - 1 - Threshold(Reversed(counts), tail), least, most);
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

    private static (double Least, double Most) Ends(ReadOnlySpan<double> values)
    {
        var (least, most) = (values[0], values[0]);
        foreach (var value in values)
        {
            least = Math.Min(least, value);
            most = Math.Max(most, value);
        }

        return (least, most);
    }

    private static int ClassOf(double value, double least, double scale) => Math.Min(Classes - 1, (int)((value - least) * scale));

    private static double Scale(double least, double most) => Classes / (most - least);

    private static int[] Count(ReadOnlySpan<double> values, double least, double most)
    {
        var counts = new int[Classes];
        var scale = Scale(least, most);
        foreach (var value in values)
        {
            counts[ClassOf(value, least, scale)]++;
        }

        return counts;
    }

    private static int[] Reversed(int[] counts)
    {
        var reversed = counts.AsSpan().ToArray();
        Array.Reverse(reversed);
        return reversed;
    }

    /// <summary>The class up to which there are so many values.</summary>
    private static int Threshold(int[] counts, int wanted)
    {
        var (index, sum) = (0, counts[0]);
        while (sum < wanted)
        {
            sum += counts[++index];
        }

        return index;
    }

    private static double[] Below(ReadOnlySpan<double> values, int upTo, double least, double most)
    {
        var (found, scale) = (new List<double>(values.Length / 8), Scale(least, most));
        foreach (var value in values)
        {
            if (ClassOf(value, least, scale) <= upTo)
            {
                found.Add(value);
            }
        }

        return Sorted(found);
    }

    private static double[] Above(ReadOnlySpan<double> values, int from, double least, double most)
    {
        var (found, scale) = (new List<double>(values.Length / 8), Scale(least, most));
        foreach (var value in values)
        {
            if (ClassOf(value, least, scale) >= from)
            {
                found.Add(value);
            }
        }

        return Sorted(found);
    }

    private static double[] Sorted(List<double> values)
    {
        values.Sort();
        return [.. values];
    }
}
