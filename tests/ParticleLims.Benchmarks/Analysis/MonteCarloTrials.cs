using BenchmarkDotNet.Attributes;
using ParticleLims.Analysis;
using ParticleLims.Analysis.Uncertainty;
using ParticleLims.Analysis.Weighings;

namespace ParticleLims.Benchmarks.Analysis;

/// <summary>A million trials of six sieves to three percentiles with their intervals, on all cores; the evaluation around them is in the time.</summary>
public class MonteCarloTrials
{
    private readonly EvaluationRequest carried = SixSieves.Request(Procedure.CarriedResidue, UncertaintyMethod.MonteCarlo, withLimits: false);
    private readonly EvaluationRequest separate = SixSieves.Request(Procedure.SeparatePortions, UncertaintyMethod.MonteCarlo, withLimits: false);

    /// <summary>By carried residue.</summary>
    [Benchmark]
    public EvaluationOutcome CarriedResidue() => Evaluate(carried);

    /// <summary>By separate portions.</summary>
    [Benchmark]
    public EvaluationOutcome SeparatePortions() => Evaluate(separate);

    /// <summary>The same trials of separate portions with MathNet's generators, distributions and statistics, on all cores.</summary>
    [Benchmark]
    public double[][] SeparatePortionsWithMathNet() => MathNetTrials.Run(1_000_000);

    private static Evaluated Evaluate(EvaluationRequest request) =>
        Engine.Evaluate(request, Engine.Version, (count, work) => Parallel.For(0, count, work)) is Evaluated { Result.PercentileUncertainties: [{ Trials: not null }, ..] } evaluated
            ? evaluated
            : throw new InvalidOperationException("The engine made no trials of the run that was to be measured.");
}
