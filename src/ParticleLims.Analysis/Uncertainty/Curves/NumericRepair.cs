namespace ParticleLims.Analysis.Uncertainty.Curves;

/// <summary>Pools adjacent violators in doubles, in place, with weights (docs/science/monotone-repair.md).</summary>
internal static class NumericRepair
{
    /// <summary>Makes the values not decrease; each becomes the weighed mean of its block.</summary>
    public static void Apply(Span<double> values, ReadOnlySpan<double> weights)
    {
        if (IsMonotone(values))
        {
            return;
        }

        Span<double> sums = stackalloc double[values.Length];
        Span<double> whole = stackalloc double[values.Length];
        Span<int> counts = stackalloc int[values.Length];
        var blocks = 0;
        for (var i = 0; i < values.Length; i++)
        {
            (sums[blocks], whole[blocks], counts[blocks]) = (values[i] * weights[i], weights[i], 1);
            blocks++;
            while (blocks > 1 && sums[blocks - 2] / whole[blocks - 2] > sums[blocks - 1] / whole[blocks - 1])
            {
                sums[blocks - 2] += sums[blocks - 1];
                whole[blocks - 2] += whole[blocks - 1];
                counts[blocks - 2] += counts[blocks - 1];
                blocks--;
            }
        }

        for (int block = 0, at = 0; block < blocks; at += counts[block], block++)
        {
            values.Slice(at, counts[block]).Fill(sums[block] / whole[block]);
        }
    }

    private static bool IsMonotone(ReadOnlySpan<double> values)
    {
        for (var i = 1; i < values.Length; i++)
        {
            if (values[i] < values[i - 1])
            {
                return false;
            }
        }

        return true;
    }
}
