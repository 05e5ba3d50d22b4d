using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;

namespace ParticleLims.Analysis.ModelFits;

/// <summary>
/// Linear least squares by Householder reflections (Golub and Van Loan, Matrix Computations, 5.3.2), columns one after the other in one
/// array. Squaring the matrix, as the normal equations do, would lose half of the digits (docs/science/weighted-least-squares.md).
/// </summary>
internal static class OrthogonalTriangle
{
    /// <summary>Turns the matrix into its triangle R, with the diagonal apart, and the right side into Qᵀ times it.</summary>
    public static void Reduce(Span<double> matrix, int rows, Span<double> diagonal, Span<double> right)
    {
        for (var k = 0; k < diagonal.Length; k++)
        {
            var column = matrix.Slice(k * rows, rows)[k..];
            var norm = Norm(column);
            if (norm == 0)
            {
                diagonal[k] = 0;
                continue;
            }

            norm = column[0] > 0 ? -norm : norm;
            diagonal[k] = norm;
            column[0] -= norm;
            var scale = -1 / (norm * column[0]);
            for (var j = k + 1; j < diagonal.Length; j++)
            {
                Reflect(column, scale, matrix.Slice(j * rows, rows)[k..]);
            }

            Reflect(column, scale, right[k..]);
        }
    }

    /// <summary>Solves R x = right from below; a column without length gets zero.</summary>
    public static void Solve(ReadOnlySpan<double> matrix, int rows, ReadOnlySpan<double> diagonal, ReadOnlySpan<double> right, Span<double> solution)
    {
        for (var k = diagonal.Length - 1; k >= 0; k--)
        {
            var sum = right[k];
            for (var j = k + 1; j < diagonal.Length; j++)
            {
                sum -= matrix[(j * rows) + k] * solution[j];
            }

            solution[k] = diagonal[k] == 0 ? 0 : sum / diagonal[k];
        }
    }

    /// <summary>The inverse of RᵀR, row after row; not finite where a column depends on the others.</summary>
    public static double[] InverseOfSquare(ReadOnlySpan<double> matrix, int rows, ReadOnlySpan<double> diagonal)
    {
        var size = diagonal.Length;
        var inverse = new double[size * size];
        for (var column = 0; column < size; column++)
        {
            for (var k = column; k >= 0; k--)
            {
                var sum = k == column ? 1.0 : 0;
                for (var j = k + 1; j <= column; j++)
                {
                    sum -= matrix[(j * rows) + k] * inverse[(j * size) + column];
                }

                inverse[(k * size) + column] = sum / diagonal[k];
            }
        }

        return Square(inverse, size);
    }

    /// <summary>The length of a column, scaled so that no square runs out of range. Divided and squared four at a time, added one after the other: so the sum has the bits of a plain loop.</summary>
    public static double Norm(ReadOnlySpan<double> column)
    {
        var largest = Largest(column);
        if (largest is 0 or double.PositiveInfinity)
        {
            return largest;
        }

        var (sum, at) = (0.0, 0);
        for (; at <= column.Length - Vector256<double>.Count; at += Vector256<double>.Count)
        {
            var parts = Vector256.Create(column[at..]) / largest;
            sum = Add(sum, parts * parts);
        }

        for (; at < column.Length; at++)
        {
            sum += column[at] / largest * (column[at] / largest);
        }

        return largest * Math.Sqrt(sum);
    }

    private static double Largest(ReadOnlySpan<double> column)
    {
        var (fours, at) = (Vector256<double>.Zero, 0);
        for (; at <= column.Length - Vector256<double>.Count; at += Vector256<double>.Count)
        {
            fours = Vector256.Max(fours, Vector256.Abs(Vector256.Create(column[at..])));
        }

        var largest = Math.Max(Math.Max(fours[0], fours[1]), Math.Max(fours[2], fours[3]));
        for (; at < column.Length; at++)
        {
            largest = Math.Max(largest, Math.Abs(column[at]));
        }

        return largest;
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static double Add(double sum, Vector256<double> fours) => sum + fours[0] + fours[1] + fours[2] + fours[3];

    /// <summary>U Uᵀ of an upper triangle U.</summary>
    private static double[] Square(double[] upper, int size)
    {
        var square = new double[size * size];
        for (var i = 0; i < size; i++)
        {
            for (var j = 0; j < size; j++)
            {
                for (var k = Math.Max(i, j); k < size; k++)
                {
                    square[(i * size) + j] += upper[(i * size) + k] * upper[(j * size) + k];
                }
            }
        }

        return square;
    }

    private static void Reflect(ReadOnlySpan<double> mirror, double scale, Span<double> column)
    {
        var (product, at) = (0.0, 0);
        for (; at <= mirror.Length - Vector256<double>.Count; at += Vector256<double>.Count)
        {
            product = Add(product, Vector256.Create(mirror[at..]) * Vector256.Create<double>(column[at..]));
        }

        for (; at < mirror.Length; at++)
        {
            product += mirror[at] * column[at];
        }

        product *= scale;
        for (at = 0; at <= mirror.Length - Vector256<double>.Count; at += Vector256<double>.Count)
        {
            (Vector256.Create<double>(column[at..]) - (Vector256.Create(mirror[at..]) * product)).CopyTo(column[at..]);
        }

        for (; at < mirror.Length; at++)
        {
            column[at] -= product * mirror[at];
        }
    }
}
