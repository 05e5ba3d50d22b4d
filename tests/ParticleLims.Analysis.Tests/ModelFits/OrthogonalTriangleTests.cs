using CsCheck;
using ParticleLims.Analysis.ModelFits;

namespace ParticleLims.Analysis.Tests.ModelFits;

/// <summary>Four at a time or not: the bits are those of the plain loops, written out here.</summary>
public sealed class OrthogonalTriangleTests
{
    private static readonly Gen<double> Number = Gen.OneOf(Gen.Double[-100, 100], RandomRequests.OneOf(0.0, 1e-200, -1e200));

    [Fact]
    public void A_length_has_the_bits_of_a_plain_loop() =>
        Number.Array[0, 13].Sample(column => OrthogonalTriangle.Norm(column).ShouldBe(PlainNorm(column)));

    [Fact]
    public void A_column_that_is_not_finite_has_no_finite_length()
    {
        double.IsNaN(OrthogonalTriangle.Norm([1, 2, double.NaN, 4, 5])).ShouldBeTrue();
        OrthogonalTriangle.Norm([1, 2, 3, 4, double.NegativeInfinity]).ShouldBe(double.PositiveInfinity);
    }

    [Fact]
    public void A_triangle_has_the_bits_of_plain_loops() =>
        Gen.Select(Gen.Int[3, 12], Gen.Double[-100, 100].Array[36], Gen.Double[-100, 100].Array[12]).Sample(
            (rows, numbers, sides) => Same(numbers[..(3 * rows)], sides[..rows]));

    /// <summary>The second column is the first one twice, and the third is nothing: what is left of them has no length.</summary>
    [Fact]
    public void A_column_without_length_is_left_alone() =>
        Same([1, 0, 0, 0, 0, 2, 0, 0, 0, 0, 0, 0, 0, 0, 0], [5, 4, 3, 2, 1])[1..].ShouldBe([0, 0]);

    private static double[] Same(double[] numbers, double[] sides)
    {
        var (matrix, right, diagonal) = (numbers.ToArray(), sides.ToArray(), new double[3]);
        var (plainMatrix, plainRight, plainDiagonal) = (numbers.ToArray(), sides.ToArray(), new double[3]);
        OrthogonalTriangle.Reduce(matrix, sides.Length, diagonal, right);
        PlainReduce(plainMatrix, sides.Length, plainDiagonal, plainRight);
        matrix.ShouldBe(plainMatrix);
        right.ShouldBe(plainRight);
        diagonal.ShouldBe(plainDiagonal);
        return diagonal;
    }

    private static void PlainReduce(double[] matrix, int rows, double[] diagonal, double[] right)
    {
        for (var k = 0; k < diagonal.Length; k++)
        {
            var column = matrix.AsSpan(k * rows, rows)[k..];
            var norm = PlainNorm(column);
            if (norm == 0)
            {
                diagonal[k] = 0;
                continue;
            }

            diagonal[k] = column[0] > 0 ? -norm : norm;
            column[0] -= diagonal[k];
            var scale = -1 / (diagonal[k] * column[0]);
            for (var j = k + 1; j < diagonal.Length; j++)
            {
                PlainReflect(column, scale, matrix.AsSpan(j * rows, rows)[k..]);
            }

            PlainReflect(column, scale, right.AsSpan(k));
        }
    }

    private static void PlainReflect(ReadOnlySpan<double> mirror, double scale, Span<double> column)
    {
        var product = 0.0;
        for (var i = 0; i < mirror.Length; i++)
        {
            product += mirror[i] * column[i];
        }

        product *= scale;
        for (var i = 0; i < mirror.Length; i++)
        {
            column[i] -= product * mirror[i];
        }
    }

    private static double PlainNorm(ReadOnlySpan<double> column)
    {
        double largest = 0, sum = 0;
        foreach (var value in column)
        {
            largest = Math.Max(largest, Math.Abs(value));
        }

        if (largest is 0 or double.PositiveInfinity)
        {
            return largest;
        }

        foreach (var value in column)
        {
            sum += value / largest * (value / largest);
        }

        return largest * Math.Sqrt(sum);
    }
}
