using ParticleLims.Analysis.Distributions;
using ParticleLims.Analysis.Quantities;

namespace ParticleLims.Analysis.Conformity;

/// <summary>
/// Simple acceptance (ILAC-G8:09/2019, 4.2.1; JCGM 106:2012, 8.2.1): inside the limits or on one of them conforms. Where only a bound of the
/// value is known, the limit is decided if every possible value gives the same answer (docs/science/simple-acceptance.md).
/// </summary>
internal static class SimpleAcceptance
{
    public static LimitVerdict Judge(int index, LimitInput limit, CharacteristicValue? value, Rounding rounding)
    {
        if (value is null)
        {
            return new LimitVerdict { Limit = index, Verdict = Verdict.Undecided, VerdictAsRounded = Verdict.Undecided };
        }

        var verdict = Decide(limit, value);
        var rounded = Round(value, limit.Digits, rounding);
        return new LimitVerdict
        {
            Limit = index,
            Value = value.Reported.ToDouble(),
            Relation = value.Relation,
            Rounded = rounded.ToString(limit.Digits, rounding),
            Verdict = verdict,
            VerdictAsRounded = value.Relation == Relation.Equal ? Decide(limit, CharacteristicValue.Exactly(rounded)) : verdict,
        };
    }

    /// <summary>"Above 37.5" without decimals is "above 37": above 38 would claim too much.</summary>
    private static Ratio Round(CharacteristicValue value, int digits, Rounding rounding) => value.Relation switch
    {
        Relation.Below => value.Reported.Ceiling(digits),
        Relation.Above => value.Reported.Floor(digits),
        _ => value.Reported.Round(digits, rounding),
    };

    private static Verdict Decide(LimitInput limit, CharacteristicValue value)
    {
        var lower = Bound(limit.Lower, value.IsExact);
        var upper = Bound(limit.Upper, value.IsExact);
        if (IsOutside(value, lower, upper))
        {
            return Verdict.DoesNotConform;
        }

        var aboveLower = lower is not { } l || (value.Low is { } low && low >= l);
        var belowUpper = upper is not { } u || (value.High is { } high && high <= u);
        return aboveLower && belowUpper ? Verdict.Conforms : Verdict.Undecided;
    }

    private static bool IsOutside(CharacteristicValue value, Ratio? lower, Ratio? upper) =>
        (lower is { } l && value.High is { } high && (high < l || (high == l && value.HighIsOpen)))
        || (upper is { } u && value.Low is { } low && (low > u || (low == u && value.LowIsOpen)));

    /// <summary>A limit of 38.1 is met by the double nearest to 38.1.</summary>
    private static Ratio? Bound(decimal? bound, bool isExact) => bound is not { } number ? null
        : isExact ? Ratio.FromDecimal(number)
        : Ratio.FromDouble(Ratio.FromDecimal(number).ToDouble());
}
