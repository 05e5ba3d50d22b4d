namespace ParticleLims.Analysis.Statistics.Arithmetic;

/// <summary>Sums in double-double. All are taken from the first value on, so that equal values have no scatter at all.</summary>
internal static class Sums
{
    public static DoubleDouble Of(IEnumerable<DoubleDouble> values)
    {
        var sum = DoubleDouble.Zero;
        foreach (var value in values)
        {
            sum += value;
        }

        return sum;
    }

    public static DoubleDouble Mean(IReadOnlyCollection<DoubleDouble> values)
    {
        var origin = values.First();
        return origin + (Of(values.Select(value => value - origin)) / values.Count);
    }

    /// <summary>The sum of squares about a middle.</summary>
    public static DoubleDouble SquaresAbout(IEnumerable<DoubleDouble> values, DoubleDouble middle) =>
        Of(values.Select(value => (value - middle) * (value - middle)));

    public static DoubleDouble Products(IReadOnlyList<DoubleDouble> left, IReadOnlyList<DoubleDouble> right)
    {
        var sum = DoubleDouble.Zero;
        for (var i = 0; i < left.Count; i++)
        {
            sum += left[i] * right[i];
        }

        return sum;
    }
}
