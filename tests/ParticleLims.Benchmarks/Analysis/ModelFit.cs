using BenchmarkDotNet.Attributes;
using ParticleLims.Analysis;
using ParticleLims.Analysis.Findings;
using ParticleLims.Analysis.ModelFits;
using ParticleLims.Analysis.Uncertainty;
using ParticleLims.Analysis.Weighings;

namespace ParticleLims.Benchmarks.Analysis;

/// <summary>A Rosin-Rammler fit to six points by weighted least squares, beginning at the straight line, with errors, residuals and cautions; and MathNet's minimum alone.</summary>
public class ModelFit
{
    private IReadOnlyList<FitPoint> points = [];
    private FittedModel line = null!;
    private MathNetFit fit = null!;

    /// <summary>The points with their uncertainties, and where to begin.</summary>
    [GlobalSetup]
    public void SetUp()
    {
        var request = SixSieves.Request(Procedure.SeparatePortions, UncertaintyMethod.Analytic, withLimits: false);
        points = FitPoint.Of(((Evaluated)Engine.Evaluate(request)).Result.Cuts);
        line = NetLineFit.Fit(Model.RosinRammler, points, new FindingLog())!;
        fit = new MathNetFit(points, line);
        var (ours, theirs) = (WeightedRosinRammler()!, fit.RosinRammler());
        if (Math.Abs(ours.SizeMicrometres - theirs.MinimizingPoint[0]) > 1e-3 * ours.SizeMicrometres)
        {
            throw new InvalidOperationException("The two fits that are compared are not the same.");
        }
    }

    /// <summary>The engine's fit with all that it tells of it.</summary>
    [Benchmark]
    public object WeightedRosinRammlerFit() => WeightedRosinRammler()!;

    /// <summary>MathNet's Levenberg-Marquardt with derivatives and weights.</summary>
    [Benchmark]
    public object WeightedRosinRammlerFitWithMathNet() => fit.RosinRammler();

    /// <summary>Three models by both methods, as in every evaluation.</summary>
    [Benchmark]
    public object ThreeModels() => ModelFitting.All(points, new FindingLog());

    private FittedModel? WeightedRosinRammler() => WeightedFit.Fit(line, points, new FindingLog());
}
