using System.Globalization;
using ParticleLims.Analysis.Conformity;
using ParticleLims.Analysis.Distributions;
using ParticleLims.Analysis.Findings;
using ParticleLims.Analysis.Uncertainty;
using ParticleLims.Analysis.Uncertainty.Curves;

namespace ParticleLims.Analysis;

/// <summary>Gives the characteristics of a result their uncertainties.</summary>
internal static class ResultUncertainty
{
    private const double Notable = 0.5;

    /// <summary>The result with the uncertainties of its percentiles, ready for those of its limits.</summary>
    public static EvaluationResult Add(EvaluationResult result, UncertaintyEvaluation evaluation, EvaluationRequest request, ForEachBlock? forEach, FindingLog log)
    {
        if (request.Uncertainty is { Method: UncertaintyMethod.MonteCarlo } input)
        {
            var subjects = request.Settings.Percentiles.Select(Subject.OfPercentile).Concat(request.Limits.Select(Of));
            evaluation.MakeTrials(subjects, forEach ?? OneAfterTheOther);
            FewTrials(input, log);
        }

        if (request.Cuts.All(cut => cut.ApertureStandardUncertainty is null))
        {
            log.Note(FindingCodes.ApertureUncertaintyMissing, "No uncertainty of an aperture was given: the uncertainty of the sizes is that of the percentages alone.");
        }

        var uncertainties = result.Percentiles.Select(percentile => OfPercentile(percentile, evaluation, log)).ToList();
        return result with { PercentileUncertainties = uncertainties, Evaluation = evaluation, Uncertainty = evaluation.Statement };
    }

    /// <summary>The uncertainty of what a limit speaks of; null where it has none.</summary>
    public static CharacteristicUncertainty? OfLimit(EvaluationResult result, LimitInput limit, CharacteristicValue value) =>
        result.Evaluation?.Of(Of(limit), value.Reported.ToDouble());

    /// <summary>The same by the law of propagation, also for limits that the result was not judged by.</summary>
    public static CharacteristicUncertainty? Analytic(EvaluationResult result, LimitInput limit, CharacteristicValue value) =>
        result.Evaluation is { } evaluation ? AnalyticUncertainty.Of(evaluation.Model, Of(limit), value.Reported.ToDouble(), evaluation.CoverageFactor) : null;

    /// <summary>What the judgement needs of it.</summary>
    public static ValueUncertainty? ToJudge(EvaluationResult result, LimitInput limit, CharacteristicValue? value, CharacteristicUncertainty? uncertainty)
    {
        if (result.Evaluation is not { } evaluation || value is null || uncertainty is null)
        {
            return null;
        }

        return new ValueUncertainty(
            uncertainty.StandardUncertainty, uncertainty.Expanded, IsSure(result, limit, value, uncertainty), (lower, upper) => evaluation.ShareWithin(Of(limit), lower, upper));
    }

    /// <summary>
    /// Whether a value lies on the side of its bound with the coverage probability: a size below the finest aperture is so only where what passes there is surely more than the share. A percentage
    /// beyond the apertures lies on its side in any case; a quotient of sizes is not looked into.
    /// </summary>
    public static bool IsSure(EvaluationResult result, LimitInput limit, CharacteristicValue value, CharacteristicUncertainty uncertainty) => value.Relation == Relation.Equal || limit.Characteristic switch
    {
        Characteristic.Percentile => (value.Relation == Relation.Below ? uncertainty.BelowFinestPercent : uncertainty.AboveCoarsestPercent) >= 50 * (1 + (result.Uncertainty?.Coverage ?? 1)),
        Characteristic.Passing or Characteristic.Retained => true,
        _ => false,
    };

    private static Subject Of(LimitInput limit) => new(limit.Characteristic, limit.Percent, limit.Aperture);

    private static CharacteristicUncertainty? OfPercentile(Percentile percentile, UncertaintyEvaluation evaluation, FindingLog log)
    {
        if (percentile.Relation != Relation.Equal)
        {
            return null;
        }

        var uncertainty = evaluation.Of(Subject.OfPercentile(percentile.Percent), percentile.Micrometres);
        var outside = uncertainty?.BelowFinestPercent + uncertainty?.AboveCoarsestPercent;
        if (outside > Notable)
        {
            log.Note(
                FindingCodes.SizeNearEnd,
                Words($"With a probability of {outside:G2} % the size D{percentile.Percent:0.###} lies outside the measured apertures; its interval is that of the curve inside them."));
        }

        return uncertainty;
    }

    /// <summary>JCGM 101:2008, 7.2.3: trials should be 10 000 times as many as one over what the interval leaves out.</summary>
    private static void FewTrials(UncertaintyInput input, FindingLog log)
    {
        if (input.StableDigits is null && input.Trials < 10_000m / (1 - input.Coverage))
        {
            log.Note(FindingCodes.FewTrials, Words($"{input.Trials} trials are few for a coverage of {input.Coverage}: at least {Math.Ceiling(10_000m / (1 - input.Coverage))} are advised."));
        }
    }

    private static void OneAfterTheOther(int count, Action<int> work)
    {
        for (var i = 0; i < count; i++)
        {
            work(i);
        }
    }

    private static string Words(FormattableString words) => words.ToString(CultureInfo.InvariantCulture);
}
