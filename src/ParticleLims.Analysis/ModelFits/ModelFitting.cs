using ParticleLims.Analysis.Findings;

namespace ParticleLims.Analysis.ModelFits;

/// <summary>Fits the models to the measured points: each by straight line and by weighted least squares.</summary>
internal static class ModelFitting
{
    private static readonly Model[] Models = [Model.RosinRammler, Model.LogNormal, Model.GatesGaudinSchuhmann];

    /// <summary>What version 1.0.0 of the engine fitted: the Rosin-Rammler line alone.</summary>
    public static IReadOnlyList<FittedModel> LineAlone(IReadOnlyList<FitPoint> points, FindingLog log) =>
        NetLineFit.Fit(Model.RosinRammler, points, log) is { } line ? [line] : [];

    /// <summary>The models that could be fitted, for each the straight line first.</summary>
    public static IReadOnlyList<FittedModel> All(IReadOnlyList<FitPoint> points, FindingLog log)
    {
        var fits = new List<FittedModel>(2 * Models.Length);
        foreach (var model in Models)
        {
            if (NetLineFit.Fit(model, points, log) is not { } line)
            {
                continue;
            }

            fits.Add(line);
            if (WeightedFit.Fit(line, points, log) is { } fit)
            {
                fits.Add(fit);
            }
        }

        return fits.AsReadOnly();
    }
}
