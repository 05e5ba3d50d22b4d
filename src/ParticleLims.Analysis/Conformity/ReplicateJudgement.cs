using ParticleLims.Analysis.Findings;
using ParticleLims.Analysis.Quantities;

namespace ParticleLims.Analysis.Conformity;

/// <summary>Judges the mean of replicates against one limit (docs/science/replicate-mean.md).</summary>
internal static class ReplicateJudgement
{
    public static LimitVerdict Of(int index, LimitInput limit, IReadOnlyList<EvaluationResult> replicates, Rounding rounding, FindingLog log)
    {
        var values = replicates.Select(result => CharacteristicReading.Read(result.Curve, result.Models, result.Summary, limit)).ToList();
        var verdict = LimitJudgement.Judge(index, limit, ReplicateMean.Of(values), MeanUncertainty(index, limit, replicates, values, log), rounding);
        if (limit.RepeatabilityLimit is not { } apart || !ReplicateMean.AreApart(values, apart))
        {
            return verdict;
        }

        log.Find(
            FindingCodes.ReplicatesApart,
            $"The replicates lie further apart than the repeatability limit of {Ratio.FromDecimal(apart).ToString(limit.Digits, rounding)}: their mean is no result.",
            $"limits[{index}]");
        return verdict with { Verdict = Verdict.Undecided, VerdictAsRounded = Verdict.Undecided };
    }

    /// <summary>
    /// u² = (sum of the u_i² without the apertures')/n² + (sum of the apertures' u_i)²/n²: weighings are made anew for each replicate, the sieves are the same. By the law of propagation,
    /// also where the replicates were evaluated by trials.
    /// </summary>
    private static ValueUncertainty? MeanUncertainty(
        int index, LimitInput limit, IReadOnlyList<EvaluationResult> replicates, List<CharacteristicValue?> values, FindingLog log)
    {
        double own = 0, shared = 0, factor = 0;
        var isSure = true;
        for (var i = 0; i < replicates.Count; i++)
        {
            if (values[i] is not { } value || ResultUncertainty.Analytic(replicates[i], limit, value) is not { } uncertainty)
            {
                Missing(index, limit, replicates[i], log);
                return null;
            }

            factor = Math.Max(factor, replicates[i].Evaluation?.CoverageFactor ?? 0);
            isSure &= ResultUncertainty.IsSure(replicates[i], limit, value, uncertainty);
            own += (uncertainty.StandardUncertainty * uncertainty.StandardUncertainty) - (uncertainty.SharedStandardUncertainty * uncertainty.SharedStandardUncertainty);
            shared += uncertainty.SharedStandardUncertainty;
        }

        var u = Math.Sqrt(Math.Max(0, own) + (shared * shared)) / replicates.Count;
        return new ValueUncertainty(u, factor * u, isSure, null);
    }

    private static void Missing(int index, LimitInput limit, EvaluationResult replicate, FindingLog log)
    {
        if (limit.Rule != DecisionRule.Simple && replicate.Evaluation is null)
        {
            log.Find(FindingCodes.UncertaintyMissing, "A replicate was evaluated without uncertainty, which the decision rule needs: the limit is undecided.", $"limits[{index}]");
        }
    }
}
