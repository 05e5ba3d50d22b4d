using CsCheck;
using ParticleLims.Analysis.Statistics.Regression;

namespace ParticleLims.Analysis.Tests.Statistics.Regression;

public sealed class LinearRegressionTests
{
    private static readonly Gen<(double X, double Y)[]> Points = Gen.Double[-50, 50].Select(Gen.Double[-50, 50]).Array[4, 30].Where(points => points.DistinctBy(point => Math.Round(point.Item1, 3)).Count() > 2);

    [Fact]
    public void A_shift_of_x_leaves_the_slope_and_a_scale_divides_it() =>
        Points.Select(Gen.Double[-1000, 1000], Gen.Double[0.01, 100]).Sample(drawn =>
        {
            var (points, shift, scale) = drawn;
            var y = points.Select(point => point.Y).ToArray();
            var plain = LinearRegression.Line(points.Select(point => point.X).ToArray(), y);
            var moved = LinearRegression.Line(points.Select(point => (point.X * scale) + shift).ToArray(), y);
            var tolerance = 1e-6 * (1 + Math.Abs(plain.Coefficients[1].Value));
            (moved.Coefficients[1].Value * scale).ShouldBe(plain.Coefficients[1].Value, tolerance);
            (moved.Coefficients[1].StandardError!.Value * scale).ShouldBe(plain.Coefficients[1].StandardError!.Value, tolerance);
            moved.RSquared!.Value.ShouldBe(plain.RSquared!.Value, 1e-6);
        });

    [Fact]
    public void Points_on_a_line_leave_no_residual()
    {
        var result = LinearRegression.Line([1, 2, 3, 4.0], [5, 7, 9, 11.0]);
        result.Coefficients[0].Value.ShouldBe(3, 1e-14);
        result.Coefficients[1].Value.ShouldBe(2, 1e-14);
        result.ResidualDeviation.ShouldBe(0);
        result.Coefficients[1].Probability.ShouldBeNull();
        result.F.ShouldBeNull();
    }

    [Fact]
    public void Two_points_leave_no_degree_of_freedom()
    {
        var result = LinearRegression.Line([1, 2], [5, 7]);
        result.DegreesOfFreedom.ShouldBe(0);
        result.ResidualDeviation.ShouldBeNull();
        result.Coefficients[1].StandardError.ShouldBeNull();
        result.Coefficients[1].IntervalAt(0.95).ShouldBeNull();
    }

    /// <summary>qt(0.975, 2) = 4.30265 (R 4.2).</summary>
    [Fact]
    public void The_interval_of_a_slope_is_Students()
    {
        var slope = LinearRegression.Line([1, 2, 3, 4.0], [1, 3, 2, 4.0]).Coefficients[1];
        slope.IntervalAt(0.95)!.High.ShouldBe(slope.Value + (4.30265272974946 * slope.StandardError!.Value), 1e-12);
        slope.Probability!.Value.ShouldBeInRange(0.05, 0.3);
    }

    [Fact]
    public void Columns_that_depend_on_each_other_are_refused()
    {
        Should.Throw<ArgumentException>(() => LinearRegression.Line([2, 2, 2], [1, 2, 3]));
        Should.Throw<ArgumentException>(() => LinearRegression.Polynomial([1.0, 2, 1, 2], [1, 2, 3, 4], 2));
        Should.Throw<ArgumentException>(() => LinearRegression.Line([1, 2, 3], [1, 2]));
        Should.Throw<ArgumentException>(() => LinearRegression.Polynomial([1.0, 2], [1, 2], 2));
        Should.Throw<ArgumentOutOfRangeException>(() => LinearRegression.Polynomial([1.0, 2], [1, 2], 13));
    }
}
