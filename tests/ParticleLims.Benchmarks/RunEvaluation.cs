using BenchmarkDotNet.Attributes;
using ParticleLims.Analysis;
using ParticleLims.Analysis.Conformity;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Analysis.Weighings;

namespace ParticleLims.Benchmarks;

/// <summary>Evaluating one run by carried residue: five sieves as at the bench, and four times as many to see how it grows.</summary>
public class RunEvaluation
{
    private EvaluationRequest five = null!;
    private EvaluationRequest twenty = null!;

    /// <summary>Makes the requests and checks that they are evaluated, not refused.</summary>
    [GlobalSetup]
    public void SetUp()
    {
        (five, twenty) = (Request(5), Request(20));
        if (Engine.Evaluate(five) is not Evaluated || Engine.Evaluate(twenty) is not Evaluated)
        {
            throw new InvalidOperationException("The engine refuses the run that was to be measured.");
        }
    }

    /// <summary>Five sieves: 11 masses to percent, percentiles, the Rosin-Rammler line and three verdicts.</summary>
    [Benchmark(Baseline = true)]
    public EvaluationOutcome FiveSieves() => Engine.Evaluate(five);

    /// <summary>Twenty sieves.</summary>
    [Benchmark]
    public EvaluationOutcome TwentySieves() => Engine.Evaluate(twenty);

    // Apertures from 20 µm up by steps of 10 µm; of 10.000 g stays on each sieve 0.7 times what stayed on the one before, to the milligram.
    private static EvaluationRequest Request(int sieves) => new()
    {
        Procedure = Procedure.CarriedResidue,
        Cuts = [.. Enumerable.Range(0, sieves).Select(Cut)],
        WeighingStandardUncertainty = WeighingUncertainty.Of(Mass.FromGrams(0.001m), Mass.FromGrams(0.001m), Mass.Zero),
        Limits =
        [
            new LimitInput { Characteristic = Characteristic.Passing, Aperture = Aperture.FromMicrometres(50m), Lower = 60m },
            new LimitInput { Characteristic = Characteristic.Percentile, Percent = 50m, Lower = 20m, Upper = 45m },
            new LimitInput { Characteristic = Characteristic.Retained, Aperture = Aperture.FromMicrometres(60m), Upper = 25m },
        ],
    };

    private static CutInput Cut(int index)
    {
        decimal Residue(int upTo) => decimal.Round(10m * (decimal)Math.Pow(0.7, upTo), 3);
        var empty = 310m - index;
        return new CutInput
        {
            Aperture = Aperture.FromMicrometres(20m + (10m * index)), Empty = Mass.FromGrams(empty), Loaded = Mass.FromGrams(empty + Residue(index)), After = Mass.FromGrams(empty + Residue(index + 1)),
        };
    }
}
