using ParticleLims.Analysis.Distributions;
using ParticleLims.Analysis.Quantities;

namespace ParticleLims.Analysis.Conformity;

/// <summary>Holds a value against a limit by the limit's decision rule, unrounded and as rounded (docs/science/simple-acceptance.md, docs/science/guarded-acceptance.md).</summary>
internal static class LimitJudgement
{
    /// <param name="index">The limit's place.</param>
    /// <param name="limit">The limit.</param>
    /// <param name="value">The value; null where there is none.</param>
    /// <param name="uncertainty">Its uncertainty; null where none was evaluated.</param>
    /// <param name="rounding">What happens to a tie.</param>
    public static LimitVerdict Judge(int index, LimitInput limit, CharacteristicValue? value, ValueUncertainty? uncertainty, Rounding rounding)
    {
        if (value is null)
        {
            return new LimitVerdict { Limit = index, Verdict = Verdict.Undecided, VerdictAsRounded = Verdict.Undecided };
        }

        var verdict = Decide(limit, value, uncertainty);
        var rounded = Round(value, limit.Digits, rounding);
        var judged = new LimitVerdict
        {
            Limit = index,
            Value = value.Reported.ToDouble(),
            Relation = value.Relation,
            Rounded = rounded.ToString(limit.Digits, rounding),
            Verdict = verdict,
            VerdictAsRounded = value.Relation == Relation.Equal ? Decide(limit, CharacteristicValue.Exactly(rounded), uncertainty) : verdict,
        };
        return uncertainty is null ? judged : WithUncertainty(judged, limit, value, uncertainty);
    }

    private static Verdict Decide(LimitInput limit, CharacteristicValue value, ValueUncertainty? uncertainty)
    {
        if (limit.Rule == DecisionRule.Simple)
        {
            return SimpleAcceptance.Decide(limit, value);
        }

        return uncertainty is { IsSure: true } ? GuardBand.Of(limit, uncertainty.Expanded).Decide(limit.Rule, value) : Verdict.Undecided;
    }

    /// <summary>"Above 37.5" without decimals is "above 37": above 38 would claim too much.</summary>
    private static Ratio Round(CharacteristicValue value, int digits, Rounding rounding) => value.Relation switch
    {
        Relation.Below => value.Reported.Ceiling(digits),
        Relation.Above => value.Reported.Floor(digits),
        _ => value.Reported.Round(digits, rounding),
    };

    private static LimitVerdict WithUncertainty(LimitVerdict judged, LimitInput limit, CharacteristicValue value, ValueUncertainty uncertainty)
    {
        var band = GuardBand.Of(limit, uncertainty.Expanded);
        var known = value.Relation == Relation.Equal;
        return judged with
        {
            ExpandedUncertainty = known ? uncertainty.Expanded : null,
            AcceptanceLower = limit.Lower is null ? null : band.AcceptanceLower,
            AcceptanceUpper = limit.Upper is null ? null : band.AcceptanceUpper,
            ProbabilityOfConformity = known ? uncertainty.ProbabilityWithin(value.Reported.ToDouble(), band.Lower, band.Upper) : null,
        };
    }
}
