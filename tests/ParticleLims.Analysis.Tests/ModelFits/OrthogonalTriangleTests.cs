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
        Gen.Select(Gen.Int[3, 12], Gen.Double[-100, 100].Array[36], Gen.Double[-100, 100].Array[12]).Sample((rows, numbers, sides) =>
        {
            var (matrix, right, diagonal) = (numbers[..(3 * rows)], sides[..rows], new double[3]);
            var (plainMatrix, plainRight, plainDiagonal) = (numbers[..(3 * rows)], sides[..rows], new double[3]);
            OrthogonalTriangle.Reduce(matrix, rows, diagonal, right);
            PlainReduce(plainMatrix, rows, plainDiagonal, plainRight);
            matrix.ShouldBe(plainMatrix);
            right.ShouldBe(plainRight);
            diagonal.ShouldBe(plainDiagonal);
        });

    private static void PlainReduce(double[] matrix, int rows, double[] diagonal, double[] right)
    {
        for (var k = 0; k < diagonal.Length; k++)
        {
            var column = matrix.AsSpan(k * rows, rows)[k..];
            var norm = PlainNorm(column.ToArray());
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

    private static double PlainNorm(double[] column)
    {
        var largest = column.Aggregate(0.0, (most, value) => Math.Max(most, Math.Abs(value)));
        return largest == 0 ? 0 : largest * Math.Sqrt(column.Aggregate(0.0, (sum, value) => sum + (value / largest * (value / largest))));
    }
}
