using System.Buffers;

namespace ParticleLims.Analysis.Uncertainty.Trials;

/// <summary>
/// The shortest coverage interval of trials (JCGM 101:2008, 7.7 and 5.3.4): of all pairs of values with so many between them the nearest. Only the two tails need to be in order.
/// </summary>
internal static class ShortestInterval
{
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

        using var tails = TrialTails.Of(values, tail, least, most);
        var room = ArrayPool<double>.Shared.Rent(tails.Bottom.Length + tails.Top.Length);
        var bottom = room.AsSpan(0, tails.Bottom.Length);
        var top = room.AsSpan(bottom.Length, tails.Top.Length);
        ClassSort.Sort(tails.Bottom, bottom, least, VectorSums.Ends(tails.Bottom).Most, ..tail);
        ClassSort.Sort(tails.Top, top, VectorSums.Ends(tails.Top).Least, most, ^tail..);
        var interval = Nearest(bottom[..tail], top[^tail..]);
        ArrayPool<double>.Shared.Return(room);
        return interval;
    }

    private static (double Low, double High) Nearest(ReadOnlySpan<double> bottom, ReadOnlySpan<double> top)
    {
        var (best, width) = (0, top[0] - bottom[0]);
        for (var r = 1; r < bottom.Length; r++)
        {
            if (top[r] - bottom[r] < width)
            {
                (best, width) = (r, top[r] - bottom[r]);
            }
        }

        return (bottom[best], top[best]);
    }
}
