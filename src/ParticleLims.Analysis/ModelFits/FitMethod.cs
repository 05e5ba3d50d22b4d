namespace ParticleLims.Analysis.ModelFits;

/// <summary>How a model was laid through the points.</summary>
public enum FitMethod
{
    /// <summary>
    /// Ordinary least squares in the model's own net, all weights one: what people draw by hand (docs/science/straight-line-fit.md).
    /// </summary>
    StraightLine,

    /// <summary>
    /// Least squares on the percentages passing, each weighed by one over its squared uncertainty (docs/science/weighted-least-squares.md).
    /// </summary>
    WeightedLeastSquares,
}
