using System.Text.Json.Serialization;
using ParticleLims.Analysis;
using ParticleLims.Analysis.Conformity;
using ParticleLims.Analysis.Distributions;
using ParticleLims.Analysis.Findings;
using ParticleLims.Analysis.ModelFits;

namespace ParticleLims.Web.Evaluations;

/// <summary>What the engine answers.</summary>
public sealed record EvaluationAnswer(
    string Engine, IReadOnlyList<CutAnswer> Cuts, IReadOnlyList<FractionAnswer> Fractions, double? RecoveryPercent, IReadOnlyList<PercentileAnswer> Percentiles, double? Span,
    double? GeometricMeanMicrometres, double? GeometricStandardDeviation, double? SauterMeanMicrometres, double? SpecificSurfaceSquareMetresPerGram,
    IReadOnlyList<ModelAnswer> Models, IReadOnlyList<FindingAnswer> Findings, IReadOnlyList<VerdictAnswer> Verdicts)
{
    /// <summary>Says a result in the words of the interface. Members that this version does not compute are null.</summary>
    public static EvaluationAnswer Of(EvaluationResult result)
    {
        ArgumentNullException.ThrowIfNull(result);
        return new EvaluationAnswer(
            result.Engine,
            [.. result.Cuts.Select(cut => new CutAnswer(cut.Aperture.Micrometres, cut.UsedAperture.Micrometres, cut.Portion?.Grams, cut.Residue?.Grams, cut.RetainedPercent.ToDouble(), cut.PassingPercent.ToDouble(), null))],
            [.. result.Fractions.Select(fraction => new FractionAnswer(fraction.From?.Micrometres, fraction.To?.Micrometres, fraction.Percent.ToDouble()))],
            result.RecoveryPercent?.ToDouble(),
            [.. result.Percentiles.Select(percentile => new PercentileAnswer(percentile.Percent, percentile.Micrometres, Sign(percentile.Relation), null, null))],
            result.Span.Relation == Relation.Equal && double.IsFinite(result.Span.Value) ? result.Span.Value : null,
            null, null, null, null,
            [.. result.Models.Select(ModelOf)],
            [.. result.Findings.Select(FindingAnswer.Of)],
            [.. result.Verdicts.Select(VerdictOf)]);
    }

    private static string Sign(Relation relation) => relation switch
    {
        Relation.Equal => "=",
        Relation.Below => "<",
        Relation.Above => ">",
        _ => throw new ArgumentOutOfRangeException(nameof(relation), relation, "Not a relation."),
    };

    private static ModelAnswer ModelOf(FittedModel model) => new(
        model.Model, model.Method, new RosinRammlerParameters(model.SizeMicrometres, model.Slope),
        model is { SizeStandardError: { } size, SlopeStandardError: { } slope } ? new RosinRammlerParameters(size, slope) : null,
        model.RSquared, null, null, model.PointsUsed, model.PointsLeftOut, model.Caution);

    private static VerdictAnswer VerdictOf(LimitVerdict verdict) => new(
        verdict.Limit, verdict.Value, Sign(verdict.Relation), verdict.Rounded, null, null, null, null, verdict.Verdict);
}

/// <summary>One cut, finest first.</summary>
public sealed record CutAnswer(decimal ApertureMicrometres, decimal UsedApertureMicrometres, decimal? PortionGrams, decimal? ResidueGrams, double RetainedPercent, double PassingPercent, double? StandardUncertaintyPercent);

/// <summary>The share between two apertures; null is an open end.</summary>
public sealed record FractionAnswer(decimal? FromMicrometres, decimal? ToMicrometres, double Percent);

/// <summary>A percentile; "&lt;" and "&gt;" give the end of the measured range.</summary>
public sealed record PercentileAnswer(decimal Percent, double Micrometres, string Relation, double? StandardUncertainty, IReadOnlyList<double>? Interval);

/// <summary>A fitted model.</summary>
public sealed record ModelAnswer(
    Model Model, FitMethod Method, RosinRammlerParameters Parameters, RosinRammlerParameters? StandardErrors, [property: JsonPropertyName("rSquared")] double RSquared, double? ReducedChiSquare, double? Aicc,
    int PointsUsed, int PointsLeftOut, string? Caution);

/// <summary>Position and slope of a Rosin-Rammler line.</summary>
public sealed record RosinRammlerParameters(double SizeMicrometres, double Slope);

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
    int Limit, double? Value, string Relation, string? Rounded, double? ExpandedUncertainty, double? AcceptanceLower, double? AcceptanceUpper, double? ProbabilityOfConformity, Verdict Verdict);
