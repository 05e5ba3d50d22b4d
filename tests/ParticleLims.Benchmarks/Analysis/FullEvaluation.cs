using BenchmarkDotNet.Attributes;
using ParticleLims.Analysis;
using ParticleLims.Analysis.Uncertainty;
using ParticleLims.Analysis.Weighings;

namespace ParticleLims.Benchmarks.Analysis;

/// <summary>One evaluation of six sieves: percentages, three percentiles with their budgets, three models by both methods, the summary and two verdicts.</summary>
public class FullEvaluation
{
    private readonly EvaluationRequest carried = SixSieves.Request(Procedure.CarriedResidue, UncertaintyMethod.Analytic, withLimits: true);
    private readonly EvaluationRequest separate = SixSieves.Request(Procedure.SeparatePortions, UncertaintyMethod.Analytic, withLimits: true);

    /// <summary>By carried residue, uncertainties by the law of propagation.</summary>
    [Benchmark]
    public EvaluationOutcome CarriedResidueAnalytic() => Evaluate(carried);

    /// <summary>By separate portions.</summary>
    [Benchmark]
    public EvaluationOutcome SeparatePortionsAnalytic() => Evaluate(separate);

    /// <summary>By carried residue, without uncertainties, as version 1.1.0 did.</summary>
    [Benchmark]
    public EvaluationOutcome CarriedResidueWithoutUncertainty() =>
        Evaluate(carried with { Uncertainty = null, WeighingStandardUncertainty = ParticleLims.Analysis.Quantities.Mass.FromGrams(0.002m), Limits = [carried.Limits[1]] });

    private static Evaluated Evaluate(EvaluationRequest request) =>
        Engine.Evaluate(request) is Evaluated { Result.Models.Count: 6 } evaluated ? evaluated : throw new InvalidOperationException("The engine does not answer the run that was to be measured.");
}
