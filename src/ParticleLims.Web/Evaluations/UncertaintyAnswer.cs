using ParticleLims.Analysis.Uncertainty;

namespace ParticleLims.Web.Evaluations;

/// <summary>How the uncertainties were evaluated.</summary>
public sealed record UncertaintyAnswer(UncertaintyMethod Method, double Coverage, double CoverageFactor, int Trials, long? Seed)
{
    /// <summary>Null stays null.</summary>
    public static UncertaintyAnswer? Of(UncertaintyStatement? statement) =>
        statement is null ? null : new UncertaintyAnswer(statement.Method, statement.Coverage, statement.CoverageFactor, statement.Trials, statement.Seed);
}

/// <summary>The uncertainty of one characteristic in its own unit, with its budget; the probabilities of lying outside the measured apertures are in percent.</summary>
public sealed record CharacteristicUncertaintyAnswer(
    double StandardUncertainty, double ExpandedUncertainty, double Low, double High, double BelowFinestPercent, double AboveCoarsestPercent, IReadOnlyList<BudgetAnswer> Budget, TrialsAnswer? Trials)
{
    /// <summary>Null stays null.</summary>
    public static CharacteristicUncertaintyAnswer? Of(CharacteristicUncertainty? uncertainty) => uncertainty is null ? null : new CharacteristicUncertaintyAnswer(
        uncertainty.StandardUncertainty, uncertainty.Expanded, uncertainty.Low, uncertainty.High, uncertainty.BelowFinestPercent, uncertainty.AboveCoarsestPercent,
        [.. uncertainty.Budget.Select(BudgetAnswer.Of)],
        uncertainty.Trials is { } trials ? new TrialsAnswer(trials.Mean, trials.AnalyticStandardUncertainty, trials.Tolerance, trials.LowDifference, trials.HighDifference, trials.IsAnalyticValidated) : null);
}

/// <summary>One line of a budget: the input with its standard uncertainty in its unit (weighings in g, apertures in µm, percentages in %), and what it contributes.</summary>
public sealed record BudgetAnswer(InputKind Input, decimal? ApertureMicrometres, double StandardUncertainty, double? Sensitivity, double Contribution, double SharePercent)
{
    /// <summary>A line of the engine's budget.</summary>
    public static BudgetAnswer Of(BudgetEntry entry)
    {
        ArgumentNullException.ThrowIfNull(entry);
        return new BudgetAnswer(entry.Input, entry.Aperture?.Micrometres, entry.StandardUncertainty, entry.Sensitivity, entry.Contribution, entry.SharePercent);
    }
}

/// <summary>What the trials found beside the law of propagation, and whether the two agree (JCGM 101:2008, clause 8).</summary>
public sealed record TrialsAnswer(double Mean, double AnalyticStandardUncertainty, double Tolerance, double LowDifference, double HighDifference, bool AnalyticValidated);
