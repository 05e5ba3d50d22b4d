using ParticleLims.Analysis.Statistics.Arithmetic;

namespace ParticleLims.Analysis.Statistics.Regression;

/// <summary>
/// Ordinary least squares with any columns, by orthogonal reflections in double-double (docs/science/linear-regression.md). Source: the formulas of the NIST Statistical
/// Reference Datasets, linear regression.
/// </summary>
public static class LinearRegression
{
    private const int HighestDegree = 12;

    /// <summary>The straight line y = b₀ + b₁ x.</summary>
    /// <exception cref="ArgumentException">Fewer than two points, lists of different length, all x the same, or a value out of range.</exception>
    public static RegressionResult Line(IReadOnlyList<double> x, IReadOnlyList<double> y) => Polynomial(x, y, 1);

    /// <summary>The polynomial y = b₀ + b₁ x + ... of a degree from 1 to 12.</summary>
    /// <exception cref="ArgumentException">
    /// Fewer points than coefficients, lists of different length, fewer different x than coefficients, a value that is not a number up to ±1e100, or with a
    /// degree above 1 an x beyond ±1e10.
    /// </exception>
    public static RegressionResult Polynomial(IReadOnlyList<double> x, IReadOnlyList<double> y, int degree) =>
        Polynomial(Given.Values(x, 2, nameof(x)), Given.Values(y, 2, nameof(y)), degree);

    /// <summary>The same of decimal numbers, of which no digit is lost.</summary>
    /// <exception cref="ArgumentException">As for doubles.</exception>
    public static RegressionResult Polynomial(IReadOnlyList<decimal> x, IReadOnlyList<decimal> y, int degree) =>
        Polynomial(Given.Values(x, 2, nameof(x)), Given.Values(y, 2, nameof(y)), degree);

    /// <summary>The model y = b₁ x₁ + b₂ x₂ + ..., with a constant b₀ before them if one is wanted.</summary>
    /// <param name="columns">One list for each x.</param>
    /// <param name="y">As long as each column.</param>
    /// <param name="hasConstant">Whether the model has a constant.</param>
    /// <exception cref="ArgumentException">Fewer points than coefficients, lists of different length, columns that depend on each other, or a value out of range.</exception>
    public static RegressionResult Of(IReadOnlyList<IReadOnlyList<decimal>> columns, IReadOnlyList<decimal> y, bool hasConstant)
    {
        Given.Enough(columns, 1, nameof(columns));
        return Fit(columns.Select(column => Given.Values(column, 1, nameof(columns))).ToList(), Given.Values(y, 1, nameof(y)), hasConstant);
    }

    private static RegressionResult Polynomial(DoubleDouble[] x, DoubleDouble[] y, int degree)
    {
        if (degree is < 1 or > HighestDegree)
        {
            throw new ArgumentOutOfRangeException(nameof(degree), degree, "The degree lies between 1 and 12.");
        }

        if (degree > 1 && Array.Exists(x, value => Math.Abs(value.High) > 1e10))
        {
            throw new ArgumentOutOfRangeException(nameof(x), "The x of a curve lies between -1e10 and 1e10.");
        }

        var columns = new List<DoubleDouble[]> { x };
        for (var power = 2; power <= degree; power++)
        {
            columns.Add([.. columns[^1].Select((value, i) => value * x[i])]);
        }

        return Fit(columns, y, hasConstant: true);
    }

    private static RegressionResult Fit(List<DoubleDouble[]> columns, DoubleDouble[] y, bool hasConstant)
    {
        DoubleDouble[][] all = [.. hasConstant ? [Enumerable.Repeat(DoubleDouble.One, y.Length).ToArray()] : Array.Empty<DoubleDouble[]>(), .. columns];
        Given.Enough(y, all.Length, nameof(y));
        foreach (var column in columns)
        {
            Given.SameLength(column, y, nameof(columns));
        }

        var total = Sums.SquaresAbout(y, hasConstant ? Sums.Mean(y) : DoubleDouble.Zero);
        var triangle = new PreciseTriangle([.. all.Select(column => (DoubleDouble[])column.Clone())], (DoubleDouble[])y.Clone());
        return triangle.IsDependent
            ? throw new ArgumentException("The columns depend on each other: there is no single best model.", nameof(columns))
            : Result(triangle, total, y.Length - all.Length, all.Length - (hasConstant ? 1 : 0));
    }

    private static RegressionResult Result(PreciseTriangle triangle, DoubleDouble total, int freedom, int explaining)
    {
        var residual = Relevant(triangle.ResidualSum(), total);
        var variance = freedom > 0 ? residual / freedom : DoubleDouble.Zero;
        var factors = triangle.VarianceFactors();
        return new RegressionResult
        {
            Coefficients = [.. triangle.Solve().Select((value, i) => new RegressionCoefficient
            {
                Value = value.ToDouble(),
                StandardError = freedom > 0 ? DoubleDouble.Sqrt(variance * factors[i]).ToDouble() : null,
                DegreesOfFreedom = freedom,
            })],
            ResidualDeviation = freedom > 0 ? DoubleDouble.Sqrt(variance).ToDouble() : null,
            DegreesOfFreedom = freedom,
            RSquared = total.High > 0 ? ((total - residual) / total).ToDouble() : null,
            F = freedom > 0 && explaining > 0 && variance.High > 0 ? ((total - residual) / explaining / variance).ToDouble() : null,
        };
    }

    /// <summary>What is left by the rounding of 31 digits is no residual.</summary>
    private static DoubleDouble Relevant(DoubleDouble residual, DoubleDouble total) => residual.High <= 1e-50 * total.High ? DoubleDouble.Zero : residual;
}
