using ParticleLims.Analysis;
using ParticleLims.Analysis.Conformity;
using ParticleLims.Analysis.Distributions;
using ParticleLims.Analysis.Findings;
using ParticleLims.Analysis.Uncertainty;

namespace ParticleLims.Web.Evaluations;

/// <summary>What the engine answers.</summary>
public sealed record EvaluationAnswer(
    string Engine, IReadOnlyList<CutAnswer> Cuts, IReadOnlyList<FractionAnswer> Fractions, double? RecoveryPercent, IReadOnlyList<PercentileAnswer> Percentiles, double? Span,
    double? GeometricMeanMicrometres, double? GeometricStandardDeviation, double? SauterMeanMicrometres, double? SpecificSurfaceSquareMetresPerGram,
    DistributionAnswer? Distribution, IReadOnlyList<ModelAnswer> Models, IReadOnlyList<FindingAnswer> Findings, IReadOnlyList<VerdictAnswer> Verdicts,
    UncertaintyAnswer? Uncertainty)
{
    /// <summary>Says a result in the words of the interface. What was not asked for, or does not follow, is null.</summary>
    public static EvaluationAnswer Of(EvaluationResult result)
    {
        ArgumentNullException.ThrowIfNull(result);
        return new EvaluationAnswer(
            result.Engine,
            [.. result.Cuts.Select(cut => new CutAnswer(cut.Aperture.Micrometres, cut.UsedAperture.Micrometres, cut.Portion?.Grams, cut.Residue?.Grams, cut.RetainedPercent.ToDouble(), cut.PassingPercent.ToDouble(), cut.PassingStandardUncertaintyPercent))],
            [.. result.Fractions.Select(fraction => new FractionAnswer(fraction.From?.Micrometres, fraction.To?.Micrometres, fraction.Percent.ToDouble(), fraction.DensityPerMicrometre, fraction.LogarithmicDensity))],
            result.RecoveryPercent?.ToDouble(),
            [.. result.Percentiles.Select((percentile, index) => PercentileOf(percentile, result.PercentileUncertainties.ElementAtOrDefault(index)))],
            result.Span.Relation == Relation.Equal && double.IsFinite(result.Span.Value) ? result.Span.Value : null,
            result.Summary?.Geometric?.MeanMicrometres, result.Summary?.Geometric?.StandardDeviation, result.Summary?.Moments?.SauterMeanMicrometres, result.Summary?.MassSpecificSurface,
            result.Summary is { } summary ? DistributionAnswer.Of(summary, result.Fractions) : null,
            [.. result.Models.Select(model => ModelAnswer.Of(model, result.Summary))],
            [.. result.Findings.Select(FindingAnswer.Of)],
            [.. result.Verdicts.Select(VerdictOf)],
            UncertaintyAnswer.Of(result.Uncertainty));
    }

    private static VerdictAnswer VerdictOf(LimitVerdict verdict) => new(
        verdict.Limit, verdict.Value, RelationSign.Of(verdict.Relation), verdict.Rounded, verdict.ExpandedUncertainty, verdict.AcceptanceLower, verdict.AcceptanceUpper, verdict.ProbabilityOfConformity, verdict.Verdict,
        CharacteristicUncertaintyAnswer.Of(verdict.Uncertainty));

    private static PercentileAnswer PercentileOf(Percentile percentile, CharacteristicUncertainty? uncertainty) => new(
        percentile.Percent, percentile.Micrometres, RelationSign.Of(percentile.Relation), uncertainty?.StandardUncertainty, uncertainty is null ? null : [uncertainty.Low, uncertainty.High],
        CharacteristicUncertaintyAnswer.Of(uncertainty));
}

/// <summary>One cut, finest first.</summary>
public sealed record CutAnswer(decimal ApertureMicrometres, decimal UsedApertureMicrometres, decimal? PortionGrams, decimal? ResidueGrams, double RetainedPercent, double PassingPercent, double? StandardUncertaintyPercent);

/// <summary>The share between two apertures; null is an open end, which has no density. The densities are of the share as a fraction, over x and over ln x.</summary>
public sealed record FractionAnswer(decimal? FromMicrometres, decimal? ToMicrometres, double Percent, double? DensityPerMicrometre, double? LogarithmicDensity);

/// <summary>A percentile; "&lt;" and "&gt;" give the end of the measured range.</summary>
public sealed record PercentileAnswer(
    decimal Percent, double Micrometres, string Relation, double? StandardUncertainty, IReadOnlyList<double>? Interval, CharacteristicUncertaintyAnswer? Uncertainty);

/// <summary>Something to know about the result.</summary>
public sealed record FindingAnswer(string Code, FindingSeverity Severity, string Message)
{
    /// <summary>A finding of the engine.</summary>
    public static FindingAnswer Of(Finding finding)
    {
        ArgumentNullException.ThrowIfNull(finding);
        return new FindingAnswer(finding.Code, finding.Severity, finding.Message);
    }
}

/// <summary>A limit's verdict.</summary>
public sealed record VerdictAnswer(
    int Limit, double? Value, string Relation, string? Rounded, double? ExpandedUncertainty, double? AcceptanceLower, double? AcceptanceUpper, double? ProbabilityOfConformity, Verdict Verdict,
    CharacteristicUncertaintyAnswer? Uncertainty);
