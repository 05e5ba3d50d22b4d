using ParticleLims.Analysis.Quantities;

namespace ParticleLims.Analysis.Conformity;

/// <summary>
/// Simple acceptance (ILAC-G8:09/2019, 4.2.1; JCGM 106:2012, 8.2.1): inside the limits or on one of them conforms. Where only a bound of the
/// value is known, the limit is decided if every possible value gives the same answer (docs/science/simple-acceptance.md).
/// </summary>
internal static class SimpleAcceptance
{
    public static Verdict Decide(LimitInput limit, CharacteristicValue value)
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
