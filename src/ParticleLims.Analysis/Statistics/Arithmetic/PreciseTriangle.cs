namespace ParticleLims.Analysis.Statistics.Arithmetic;

/// <summary>
/// Least squares by Householder reflections in double-double (Golub and Van Loan, Matrix Computations, 5.3.2). With 31 digits the eleven columns of a polynomial of the
/// tenth degree, which are alike in their first ten digits, leave all digits of a double (docs/science/linear-regression.md).
/// </summary>
internal sealed class PreciseTriangle
{
    private readonly DoubleDouble[][] _columns;
    private readonly DoubleDouble[] _diagonal;
    private readonly DoubleDouble[] _right;

    /// <summary>Takes the columns and the right side over and turns them into the triangle.</summary>
    public PreciseTriangle(DoubleDouble[][] columns, DoubleDouble[] right)
    {
        _columns = columns;
        _right = right;
        _diagonal = new DoubleDouble[columns.Length];
        for (var k = 0; k < columns.Length; k++)
        {
            Reduce(k);
        }
    }

    /// <summary>Whether a column depends on the others, to twenty digits.</summary>
    public bool IsDependent { get; private set; }

    /// <summary>The sum of squares that no combination of the columns reaches.</summary>
    public DoubleDouble ResidualSum() => Sums.Of(_right.Skip(_columns.Length).Select(value => value * value));

    public DoubleDouble[] Solve()
    {
        var solution = new DoubleDouble[_columns.Length];
        for (var k = _columns.Length - 1; k >= 0; k--)
        {
            var sum = _right[k];
            for (var j = k + 1; j < _columns.Length; j++)
            {
                sum -= _columns[j][k] * solution[j];
            }

            solution[k] = sum / _diagonal[k];
        }

        return solution;
    }

    /// <summary>The diagonal of the inverse of the normal matrix: the variance of each coefficient for a residual variance of one.</summary>
    public DoubleDouble[] VarianceFactors()
    {
        var factors = new DoubleDouble[_columns.Length];
        for (var column = 0; column < _columns.Length; column++)
        {
            var inverse = InverseColumn(column);
            for (var k = 0; k <= column; k++)
            {
                factors[k] += inverse[k] * inverse[k];
            }
        }

        return factors;
    }

    private DoubleDouble[] InverseColumn(int column)
    {
        var inverse = new DoubleDouble[column + 1];
        for (var k = column; k >= 0; k--)
        {
            var sum = k == column ? DoubleDouble.One : DoubleDouble.Zero;
            for (var j = k + 1; j <= column; j++)
            {
                sum -= _columns[j][k] * inverse[j];
            }

            inverse[k] = sum / _diagonal[k];
        }

        return inverse;
    }

    private void Reduce(int k)
    {
        var mirror = _columns[k];
        var whole = Length(mirror, 0);
        var norm = Length(mirror, k);
        if (norm.High <= 1e-20 * whole.High)
        {
            IsDependent = true;
            _diagonal[k] = DoubleDouble.One;
            return;
        }

        norm = mirror[k].High > 0 ? -norm : norm;
        _diagonal[k] = norm;
        mirror[k] -= norm;
        var scale = DoubleDouble.One / (norm * mirror[k]);
        for (var j = k + 1; j < _columns.Length; j++)
        {
            Reflect(mirror, scale, _columns[j], k);
        }

        Reflect(mirror, scale, _right, k);
    }

    private static void Reflect(DoubleDouble[] mirror, DoubleDouble scale, DoubleDouble[] column, int from)
    {
        var product = DoubleDouble.Zero;
        for (var i = from; i < mirror.Length; i++)
        {
            product += mirror[i] * column[i];
        }

        product *= scale;
        for (var i = from; i < mirror.Length; i++)
        {
            column[i] += product * mirror[i];
        }
    }

    private static DoubleDouble Length(DoubleDouble[] column, int from) => DoubleDouble.Sqrt(Sums.Of(column.Skip(from).Select(value => value * value)));
}
