using ParticleLims.Analysis.ModelFits;

namespace ParticleLims.Pictures.Plots;

/// <summary>A fitted distribution with two parameters; the engine's formulas draw it.</summary>
/// <param name="Model">Which distribution.</param>
/// <param name="SizeMicrometres">Its position in µm: Rosin-Rammler x', log-normal median, Gates-Gaudin-Schuhmann top size.</param>
/// <param name="Slope">The slope in its own net, above 0, without unit.</param>
public sealed record FittedLine(Model Model, double SizeMicrometres, double Slope)
{
    /// <summary>The model's name as people write it.</summary>
    public string Name => Model switch
    {
        Model.RosinRammler => "Rosin-Rammler",
        Model.LogNormal => "log-normal",
        Model.GatesGaudinSchuhmann => "Gates-Gaudin-Schuhmann",
        _ => throw new InvalidOperationException($"{Model} is not a model."),
    };

    /// <summary>The two parameters as people tell them.</summary>
    public string Parameters => Model switch
    {
        Model.RosinRammler => $"x′ = {Words.Size(SizeMicrometres)}, n = {Words.Significant(Slope)}",
        Model.LogNormal => $"x50 = {Words.Size(SizeMicrometres)}, GSD = {Words.Significant(Math.Exp(1 / Slope))}",
        _ => $"k = {Words.Size(SizeMicrometres)}, m = {Words.Significant(Slope)}",
    };

    /// <summary>Passing in percent at a size in µm.</summary>
    public double PassingPercent(double micrometres) => new FittedModel
    {
        Model = Model, Method = FitMethod.StraightLine, SizeMicrometres = SizeMicrometres, Slope = Slope, Intercept = 0, RSquared = 1, PointsUsed = 0, PointsLeftOut = 0,
    }.PassingPercentAt(micrometres);

    /// <summary>The height in the model's own net at a size in µm: 0 at the position.</summary>
    public double Ordinate(double micrometres) => Slope * Math.Log(micrometres / SizeMicrometres);
}
