using ParticleLims.Analysis.Quantities;

namespace ParticleLims.Analysis.Distributions;

/// <summary>
/// The nearest curve that does not decrease, in the sense of weighed least squares: pool adjacent violators
/// (Ayer, Brunk, Ewing, Reid and Silverman, Annals of Mathematical Statistics 26 (1955) 641; docs/science/monotone-repair.md).
/// Exact: the mean of a block is a fraction, also with weights, which are doubles.
/// </summary>
internal static class MonotoneRepair
{
    /// <summary>The values made not to decrease.</summary>
    /// <param name="values">The values.</param>
    /// <param name="weights">A weight above zero for each, 1/u²; null for weights one.</param>
    public static Ratio[] Apply(IReadOnlyList<Ratio> values, IReadOnlyList<double>? weights = null)
    {
        // A curve that does not decrease is its own nearest; the fractions of weights, which are long, are spared.
        if (IsMonotone(values))
        {
            return [.. values];
        }

        var blocks = new List<Block>(values.Count);
        for (var i = 0; i < values.Count; i++)
        {
            var weight = weights is null ? Ratio.One : Ratio.FromDouble(weights[i]);
            var block = new Block(values[i] * weight, weight, 1);
            while (blocks.Count > 0 && blocks[^1].Mean > block.Mean)
            {
                block = new Block(blocks[^1].Sum + block.Sum, blocks[^1].Weight + block.Weight, blocks[^1].Count + block.Count);
                blocks.RemoveAt(blocks.Count - 1);
            }

            blocks.Add(block);
        }

        return blocks.SelectMany(block => Enumerable.Repeat(block.Mean, block.Count)).ToArray();
    }

    private static bool IsMonotone(IReadOnlyList<Ratio> values)
    {
        for (var i = 1; i < values.Count; i++)
        {
            if (values[i] < values[i - 1])
            {
                return false;
            }
        }

        return true;
    }

    private readonly record struct Block(Ratio Sum, Ratio Weight, int Count)
    {
        public Ratio Mean => Sum / Weight;
    }
}
