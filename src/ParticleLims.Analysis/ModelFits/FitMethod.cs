namespace ParticleLims.Analysis.ModelFits;

/// <summary>How a model was laid through the points.</summary>
public enum FitMethod
{
    /// <summary>Ordinary least squares in the model's own net, all weights one: what people draw by hand.</summary>
    StraightLine,
}
