namespace ParticleLims.Analysis.ModelFits;

/// <summary>
/// Ordinary least squares y = intercept + slope x, both sums taken about the means
/// (docs/science/straight-line-fit.md).
/// </summary>
internal sealed record StraightLine
{
    public required double Slope { get; init; }

    public required double Intercept { get; init; }

    /// <summary>Sum of squared residuals in the ordinate.</summary>
    public required double ResidualSum { get; init; }

    /// <summary>Square of the correlation coefficient; one for a level set of points on a line.</summary>
    public required double RSquared { get; init; }

    public required double MeanY { get; init; }

    /// <summary>Sum of squares of x about its mean.</summary>
    public required double SumXX { get; init; }

    public required int Count { get; init; }

    /// <summary>The residual variance; null with two points, which any line meets.</summary>
    public double? Variance => Count > 2 ? ResidualSum / (Count - 2) : null;

    /// <summary>Needs at least two points of different abscissa.</summary>
    public static StraightLine Through(IReadOnlyList<(double X, double Y)> points)
    {
        var meanX = points.Average(point => point.X);
        var meanY = points.Average(point => point.Y);
        double xx = 0, xy = 0, yy = 0;
        foreach (var (x, y) in points)
        {
            var (dx, dy) = (x - meanX, y - meanY);
            xx += dx * dx;
            xy += dx * dy;
            yy += dy * dy;
        }

        var slope = xy / xx;
        var intercept = meanY - (slope * meanX);
        var residuals = points.Sum(point => Square(point.Y - meanY - (slope * (point.X - meanX))));
        return new StraightLine
        {
            Slope = slope,
            Intercept = intercept,
            ResidualSum = residuals,
            RSquared = yy > 0 ? Math.Min(1, slope * xy / yy) : 1,
            MeanY = meanY,
            SumXX = xx,
            Count = points.Count,
        };
    }

    private static double Square(double value) => value * value;
}
