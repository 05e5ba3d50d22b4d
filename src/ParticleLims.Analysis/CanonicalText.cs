using System.Globalization;
using System.Text;
using ParticleLims.Analysis.Quantities;

namespace ParticleLims.Analysis;

/// <summary>Writes a result one number group to a line, culture invariant.</summary>
internal static class CanonicalText
{
    public static string Of(EvaluationResult result)
    {
        var text = new StringBuilder();
        Line(text, "engine", result.Engine);
        Table(text, result);
        foreach (var percentile in result.Percentiles)
        {
            Line(text, "percentile", percentile.Percent, percentile.Relation, percentile.Micrometres);
        }

        Line(text, "span", result.Span.Relation, result.Span.Value);
        foreach (var model in result.Models)
        {
            Line(text, "model", model.Model, model.Method, model.SizeMicrometres, model.Slope, model.Intercept, model.SizeStandardError, model.SlopeStandardError, model.RSquared, model.PointsUsed, model.PointsLeftOut);
        }

        foreach (var finding in result.Findings)
        {
            Line(text, "finding", finding.Severity, finding.Code, finding.Member);
        }

        foreach (var verdict in result.Verdicts)
        {
            Line(text, "verdict", verdict.Limit, verdict.Relation, verdict.Value, verdict.Rounded, verdict.Verdict, verdict.VerdictAsRounded);
        }

        return text.ToString();
    }

    private static void Table(StringBuilder text, EvaluationResult result)
    {
        foreach (var cut in result.Cuts)
        {
            Line(text, "cut", cut.Aperture, cut.UsedAperture, cut.Portion, cut.Residue, cut.RetainedPercent);
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
