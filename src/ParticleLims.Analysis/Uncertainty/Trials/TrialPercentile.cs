using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace ParticleLims.Analysis.Uncertainty.Trials;

/// <summary>Reads a percentile off the curves of a chunk, straight between the points in x or in ln x; beyond the measured apertures it answers with the end.</summary>
internal static class TrialPercentile
{
    public static void Read(double percent, ReadOnlySpan<double> repaired, ReadOnlySpan<double> abscissas, int cuts, bool logarithmic, Span<double> output)
    {
        var q = MemoryMarshal.Cast<double, Vector256<double>>(repaired);
        var x = MemoryMarshal.Cast<double, Vector256<double>>(abscissas);
        var to = MemoryMarshal.Cast<double, Vector256<double>>(output);
        var asked = Vector256.Create(percent);
        for (var i = 0; i < to.Length; i++)
        {
            var (low, from, high, until) = (q[i], x[i], q[i], x[i]);
            for (int cut = 1, at = i + to.Length; cut < cuts; cut++, at += to.Length)
            {
                // Past the point before: the segment asked for begins there or later, until one ends at or above.
                var past = Vector256.LessThan(high, asked);
                (low, from) = (Vector256.ConditionalSelect(past, high, low), Vector256.ConditionalSelect(past, until, from));
                (high, until) = (Vector256.ConditionalSelect(past, q[at], high), Vector256.ConditionalSelect(past, x[at], until));
            }

            var inside = Vector256.GreaterThan(high, low) & Vector256.LessThan(low, asked) & Vector256.GreaterThanOrEqual(high, asked);
            var within = from + ((asked - low) / (high - low) * (until - from));
            var value = Vector256.ConditionalSelect(inside, within, until);
            to[i] = logarithmic ? VectorFunctions.Exp(value) : value;
        }
    }
}
