using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using ParticleLims.Analysis.Uncertainty.Curves;

namespace ParticleLims.Analysis.Uncertainty.Trials;

/// <summary>Makes the curves of a chunk monotone; most are already, and only the others are touched.</summary>
internal static class TrialRepair
{
    public static void Apply(Span<double> columns, ReadOnlySpan<double> weights)
    {
        var vectors = MemoryMarshal.Cast<double, Vector256<double>>(columns);
        const int Row = TrialColumn.Length / TrialRandom.Lanes;
        for (var i = 0; i < Row; i++)
        {
            var falls = Vector256<double>.Zero;
            for (var cut = 1; cut < weights.Length; cut++)
            {
                falls |= Vector256.LessThan(vectors[(cut * Row) + i], vectors[((cut - 1) * Row) + i]);
            }

            if (falls.ExtractMostSignificantBits() is not 0 and var lanes)
            {
                Repair(columns, weights, i * TrialRandom.Lanes, lanes);
            }
        }
    }

    private static void Repair(Span<double> columns, ReadOnlySpan<double> weights, int first, uint lanes)
    {
        Span<double> own = stackalloc double[weights.Length];
        for (var lane = 0; lane < TrialRandom.Lanes; lane++)
        {
            if ((lanes >> lane & 1) == 0)
            {
                continue;
            }

            for (var cut = 0; cut < own.Length; cut++)
            {
                own[cut] = columns[(cut * TrialColumn.Length) + first + lane];
            }

            NumericRepair.Apply(own, weights);
            for (var cut = 0; cut < own.Length; cut++)
            {
                columns[(cut * TrialColumn.Length) + first + lane] = own[cut];
            }
        }
    }
}
