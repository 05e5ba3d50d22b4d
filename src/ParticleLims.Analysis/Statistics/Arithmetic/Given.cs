namespace ParticleLims.Analysis.Statistics.Arithmetic;

/// <summary>What the statistics ask of the numbers that they are given; within it none of them overflows or gives NaN.</summary>
internal static class Given
{
    private const double Largest = 1e100;
    private const double Smallest = 1e-100;

    public static DoubleDouble[] Values(IReadOnlyList<double> values, int atLeast, string name)
    {
        Enough(values, atLeast, name);
        return values.Select(value => (DoubleDouble)Value(value, name)).ToArray();
    }

    public static DoubleDouble[] Values(IReadOnlyList<decimal> values, int atLeast, string name)
    {
        Enough(values, atLeast, name);
        return values.Select(DoubleDouble.From).ToArray();
    }

    /// <summary>A number up to ±1e100. What is nearer to zero than 1e-100 counts as zero, since its square is none.</summary>
    public static double Value(double value, string name) => Math.Abs(value) switch
    {
        < Smallest => 0,
        <= Largest => value,
        _ => throw new ArgumentOutOfRangeException(name, value, "A value is a number between -1e100 and 1e100."),
    };

    public static double Positive(double value, string name) => Value(value, name) > 0
        ? value
        : throw new ArgumentOutOfRangeException(name, value, "The value is greater than zero.");

    /// <summary>A probability strictly between zero and one.</summary>
    public static double Probability(double value, string name) => value is > 0 and < 1
        ? value
        : throw new ArgumentOutOfRangeException(name, value, "A probability lies between 0 and 1, both excluded.");

    public static void Enough<T>(IReadOnlyList<T> values, int atLeast, string name)
    {
        ArgumentNullException.ThrowIfNull(values, name);
        if (values.Count < atLeast)
        {
            throw new ArgumentException(FormattableString.Invariant($"At least {atLeast} are needed, {values.Count} are given."), name);
        }
    }

    public static void SameLength<TLeft, TRight>(IReadOnlyList<TLeft> left, IReadOnlyList<TRight> right, string name)
    {
        if (left.Count != right.Count)
        {
            throw new ArgumentException(FormattableString.Invariant($"There are {left.Count} of the one and {right.Count} of the other."), name);
        }
    }
}
