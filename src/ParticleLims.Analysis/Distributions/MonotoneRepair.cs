using ParticleLims.Analysis.Quantities;

namespace ParticleLims.Analysis.Distributions;

/// <summary>
/// The nearest curve that does not decrease, in the sense of least squares with weights one: pool adjacent violators
/// (Ayer, Brunk, Ewing, Reid and Silverman, Annals of Mathematical Statistics 26 (1955) 641; docs/science/monotone-repair.md).
/// Exact: the mean of a block is a fraction.
/// </summary>
internal static class MonotoneRepair
{
    public static Ratio[] Apply(IReadOnlyList<Ratio> values)
    {
        var blocks = new List<(Ratio Sum, int Count)>(values.Count);
        foreach (var value in values)
        {
            var block = (Sum: value, Count: 1);
            while (blocks.Count > 0 && Mean(blocks[^1]) > Mean(block))
            {
                block = (blocks[^1].Sum + block.Sum, blocks[^1].Count + block.Count);
                blocks.RemoveAt(blocks.Count - 1);
            }

            blocks.Add(block);
        }

        return blocks.SelectMany(block => Enumerable.Repeat(Mean(block), block.Count)).ToArray();
    }

    private static Ratio Mean((Ratio Sum, int Count) block) => Ratio.Of(block.Sum.Numerator, block.Sum.Denominator * block.Count);
}
