namespace ParticleLims.Analysis.ModelFits;

/// <summary>
/// Ordinary least squares y = intercept + slope x, both sums taken about the means, in the order of the points
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

    public required double MeanX { get; init; }

    public required double MeanY { get; init; }

    /// <summary>Sum of squares of x about its mean.</summary>
    public required double SumXX { get; init; }

    public required int Count { get; init; }

    /// <summary>The residual variance; null with two points, which any line meets.</summary>
    public double? Variance => Count > 2 ? ResidualSum / (Count - 2) : null;

    /// <summary>Needs at least two points of different abscissa.</summary>
    public static StraightLine Through(IReadOnlyList<(double X, double Y)> points)
    {
        double meanX = 0, meanY = 0, xx = 0, xy = 0, yy = 0, residuals = 0;
        foreach (var (x, y) in points)
        {
            meanX += x;
            meanY += y;
        }

        meanX /= points.Count;
        meanY /= points.Count;

        foreach (var (x, y) in points)
        {
            var (dx, dy) = (x - meanX, y - meanY);
            xx += dx * dx;
            xy += dx * dy;
            yy += dy * dy;
        }

        var slope = xy / xx;
        var intercept = meanY - (slope * meanX);
        foreach (var (x, y) in points)
        {
            residuals += Square(y - meanY - (slope * (x - meanX)));
        }

        return new StraightLine
        {
            Slope = slope,
            Intercept = intercept,
            ResidualSum = residuals,
            RSquared = yy > 0 ? Math.Min(1, slope * xy / yy) : 1,
            MeanX = meanX,
            MeanY = meanY,
            SumXX = xx,
            Count = points.Count,
        };
    }

    private static double Square(double value) => value * value;
}
