using ParticleLims.Analysis.Distributions.Functions;
using ParticleLims.Analysis.Uncertainty.Curves;
using ParticleLims.Analysis.Uncertainty.Trials;

namespace ParticleLims.Analysis.Uncertainty;

/// <summary>The uncertainties of the characteristics of one run, by the method that was asked for.</summary>
internal sealed class UncertaintyEvaluation
{
    private const int Together = 8;
    private const int ToleranceDigits = 2;

    private readonly MeasurementModel _model;
    private readonly double _coverage;
    private readonly Dictionary<Subject, Outcome> _trials = [];

    public UncertaintyEvaluation(MeasurementModel model)
    {
        _model = model;
        _coverage = (double)model.Uncertainty.Coverage;
        CoverageFactor = NormalDistribution.Quantile((1 + _coverage) / 2, (1 - _coverage) / 2);
    }

    /// <summary>k of the normal distribution for the coverage probability.</summary>
    public double CoverageFactor { get; }

    public MeasurementModel Model => _model;

    public UncertaintyStatement Statement => new()
    {
        Method = _model.Uncertainty.Method,
        Coverage = _coverage,
        CoverageFactor = CoverageFactor,
        Trials = _trials.Count == 0 ? 0 : _trials.Values.Max(outcome => outcome.Values.Length),
        Seed = _model.Uncertainty.Method == UncertaintyMethod.MonteCarlo ? _model.Uncertainty.Seed : null,
    };

    /// <summary>Makes the trials of all characteristics at once, a few at a time to keep the memory small; each few sees the same draws.</summary>
    public void MakeTrials(IEnumerable<Subject> subjects, ForEachBlock forEach)
    {
        var (input, monteCarlo) = (_model.Uncertainty, new MonteCarlo(forEach, _coverage, _model.Uncertainty.Seed));
        foreach (var few in subjects.Distinct().Chunk(Together))
        {
            var trials = new SievingTrials(_model, few);
            var values = input.StableDigits is { } digits ? monteCarlo.RunUntilStable(trials, input.Trials, digits) : monteCarlo.Run(trials, input.Trials);
            var summaries = new TrialSummary?[few.Length];
            forEach(few.Length, i => summaries[i] = TrialSummary.IfFinite(values[i], _coverage));
            for (var i = 0; i < few.Length; i++)
            {
                _trials[few[i]] = new Outcome(values[i], summaries[i]);
            }
        }
    }

    /// <summary>The uncertainty of a characteristic; null where it has none, as a size that is only known to lie below an aperture.</summary>
    public CharacteristicUncertainty? Of(Subject subject, double value)
    {
        if (AnalyticUncertainty.Of(_model, subject, value, CoverageFactor) is not { } analytic)
        {
            return null;
        }

        if (!_trials.TryGetValue(subject, out var outcome))
        {
            return _model.Uncertainty.Method == UncertaintyMethod.Analytic ? analytic : null;
        }

        return outcome.Summary is { } summary ? Compared(analytic, summary) : null;
    }

    /// <summary>The probability that the true value lies within limits, by the trials; null for the analytic method.</summary>
    public double? ShareWithin(Subject subject, double lower, double upper)
    {
        if (!_trials.TryGetValue(subject, out var outcome))
        {
            return null;
        }

        var inside = 0;
        foreach (var value in outcome.Values)
        {
            inside += value >= lower && value <= upper ? 1 : 0;
        }

        return (double)inside / outcome.Values.Length;
    }

    private static CharacteristicUncertainty Compared(CharacteristicUncertainty analytic, TrialSummary summary) => analytic with
    {
        StandardUncertainty = summary.StandardDeviation,
        Expanded = (summary.High - summary.Low) / 2,
        Low = summary.Low,
        High = summary.High,
        Trials = new TrialComparison
        {
            Mean = summary.Mean,
            AnalyticStandardUncertainty = analytic.StandardUncertainty,
            Tolerance = NumericalTolerance.Of(summary.StandardDeviation, ToleranceDigits),
            LowDifference = Math.Abs(analytic.Low - summary.Low),
            HighDifference = Math.Abs(analytic.High - summary.High),
        },
    };

    /// <summary>The trials of a characteristic; no summary where some trial has no value.</summary>
    private sealed record Outcome(double[] Values, TrialSummary? Summary);
}
