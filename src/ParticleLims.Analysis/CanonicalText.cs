using System.Globalization;
using System.Text;
using ParticleLims.Analysis.Distributions;
using ParticleLims.Analysis.ModelFits;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Analysis.Uncertainty;

namespace ParticleLims.Analysis;

/// <summary>Writes a result one number group to a line, culture invariant.</summary>
internal static class CanonicalText
{
    public static string Of(EvaluationResult result)
    {
        var text = new StringBuilder();
        Line(text, "engine", result.Engine);
        Table(text, result);
        for (var i = 0; i < result.Percentiles.Count; i++)
        {
            var percentile = result.Percentiles[i];
            Line(text, "percentile", percentile.Percent, percentile.Relation, percentile.Micrometres);
            Uncertainty(text, i < result.PercentileUncertainties.Count ? result.PercentileUncertainties[i] : null);
        }

        Line(text, "span", result.Span.Relation, result.Span.Value);
        foreach (var model in result.Models)
        {
            Line(text, "model", model.Model, model.Method, model.SizeMicrometres, model.Slope, model.Intercept, model.SizeStandardError, model.SlopeStandardError, model.RSquared, model.PointsUsed, model.PointsLeftOut);
            if (result.Summary is { } summary)
            {
                Fit(text, model, summary);
            }
        }

        if (result.Summary is not null)
        {
            Summary(text, result.Fractions, result.Summary);
        }

        foreach (var finding in result.Findings)
        {
            Line(text, "finding", finding.Severity, finding.Code, finding.Member);
        }

        foreach (var verdict in result.Verdicts)
        {
            Line(text, "verdict", verdict.Limit, verdict.Relation, verdict.Value, verdict.Rounded, verdict.Verdict, verdict.VerdictAsRounded);
            if (verdict.AcceptanceLower is not null || verdict.AcceptanceUpper is not null)
            {
                Line(text, "acceptance", verdict.AcceptanceLower, verdict.AcceptanceUpper, verdict.ProbabilityOfConformity);
            }

            Uncertainty(text, verdict.Uncertainty);
        }

        if (result.Uncertainty is { } statement)
        {
            Line(text, "coverage", statement.Method, statement.Coverage, statement.CoverageFactor, statement.Trials, statement.Seed);
        }

        return text.ToString();
    }

    private static void Table(StringBuilder text, EvaluationResult result)
    {
        foreach (var cut in result.Cuts)
        {
            Line(text, "cut", cut.Aperture, cut.UsedAperture, cut.Portion, cut.Residue, cut.RetainedPercent);
            if (cut.PassingStandardUncertaintyPercent is { } uncertainty)
            {
                Line(text, "uncertainty", uncertainty);
            }
        }

        foreach (var point in result.Curve.Points)
        {
            Line(text, "point", point.Aperture, point.MeasuredPercent, point.PassingPercent);
        }

        foreach (var loss in result.TransferLosses)
        {
            Line(text, "loss", loss.From, loss.To, loss.Lost);
        }

        Line(text, "recovery", result.RecoveryPercent);
    }

    /// <summary>Only where it was evaluated, so that the texts of results without it stay as they were.</summary>
    private static void Uncertainty(StringBuilder text, CharacteristicUncertainty? uncertainty)
    {
        if (uncertainty is null)
        {
            return;
        }

        Line(text, "u", uncertainty.StandardUncertainty, uncertainty.Expanded, uncertainty.Low, uncertainty.High, uncertainty.SharedStandardUncertainty, uncertainty.BelowFinestPercent, uncertainty.AboveCoarsestPercent);
        if (uncertainty.Trials is { } trials)
        {
            Line(text, "trials", trials.Mean, trials.AnalyticStandardUncertainty, trials.Tolerance, trials.LowDifference, trials.HighDifference);
        }

        foreach (var entry in uncertainty.Budget)
        {
            Line(text, "budget", entry.Input, entry.Aperture, entry.StandardUncertainty, entry.Sensitivity, entry.Contribution, entry.SharePercent);
        }
    }

    /// <summary>What version 1.0.0 did not give.</summary>
    private static void Fit(StringBuilder text, FittedModel model, DistributionSummary summary)
    {
        Line(text, "fit", model.SizeSlopeCovariance, model.GeometricStandardDeviation, model.GeometricStandardDeviationStandardError, model.ReducedChiSquare, model.Aicc, model.ShareBelowPercent, model.ShareAbovePercent);
        Line(text, "surface", model.SauterMeanMicrometres, summary.VolumeSpecificSurfaceOf(model.SauterMeanMicrometres), summary.MassSpecificSurfaceOf(model.SauterMeanMicrometres));
        foreach (var residual in model.Residuals)
        {
            Line(text, "residual", residual.Aperture, residual.PassingPercent, residual.Minimised);
        }
    }

    private static void Summary(StringBuilder text, IReadOnlyList<SizeClass> classes, DistributionSummary summary)
    {
        foreach (var one in classes)
        {
            Line(text, "class", one.From, one.To, one.Percent, one.DensityPerMicrometre, one.LogarithmicDensity);
        }

        Line(text, "mode", summary.Mode?.From, summary.Mode?.To, summary.Mode?.ModeMicrometres, summary.Mode?.LogarithmicDensity);
        Line(text, "uniformity", summary.Uniformity?.Relation, summary.Uniformity?.Value, summary.Curvature?.Relation, summary.Curvature?.Value);
        Line(text, "geometric", summary.Geometric?.MeanMicrometres, summary.Geometric?.StandardDeviation);
        Line(text, "moments", [summary.Moments?.BelowPercent, summary.Moments?.AbovePercent, .. Enumerable.Range(-3, 7).Select(k => (object?)summary.Moments?.Moment(k))]);
        Line(text, "surface", summary.ShapeFactor, summary.TrueDensityGramsPerCubicCentimetre, summary.VolumeSpecificSurface, summary.MassSpecificSurface);
        Line(text, "fineness", summary.FinenessClass, summary.FinenessModulus?.Relation, summary.FinenessModulus?.Value);
    }

    private static void Line(StringBuilder text, string name, params ReadOnlySpan<object?> values)
    {
        text.Append(name);
        foreach (var value in values)
        {
            text.Append(' ').Append(Text(value));
        }

        text.Append('\n');
    }

    private static string Text(object? value) => value switch
    {
        null => "-",
        Aperture aperture => aperture.Nanometres.ToString(CultureInfo.InvariantCulture),
        Mass mass => mass.Micrograms.ToString(CultureInfo.InvariantCulture),
        double number => number.ToString("R", CultureInfo.InvariantCulture),
        IFormattable formattable => formattable.ToString(null, CultureInfo.InvariantCulture),
        _ => value.ToString() ?? "-",
    };
}
