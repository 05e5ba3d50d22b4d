using ParticleLims.Analysis.Quantities;

namespace ParticleLims.Analysis.Conformity;

/// <summary>
/// Acceptance limits inside the tolerance limits by a guard band w = r U (ILAC-G8:09/2019, 4.2.2 and 4.2.3; JCGM 106:2012, 8.3.2; docs/science/guarded-acceptance.md).
/// </summary>
internal sealed record GuardBand(double Lower, double Upper, double Width)
{
    /// <summary>The guard band of a limit; without a bound on a side it is infinite there.</summary>
    public static GuardBand Of(LimitInput limit, double expandedUncertainty) => new(
        limit.Lower is { } lower ? Number(lower) : double.NegativeInfinity,
        limit.Upper is { } upper ? Number(upper) : double.PositiveInfinity,
        limit.Rule == DecisionRule.Simple ? 0 : Number(limit.GuardFactor) * expandedUncertainty);

    /// <summary>The least value that is accepted.</summary>
    public double AcceptanceLower => Lower + Width;

    /// <summary>The greatest value that is accepted.</summary>
    public double AcceptanceUpper => Upper - Width;

    /// <summary>Whether no value at all would be accepted.</summary>
    public bool IsEmpty => AcceptanceLower > AcceptanceUpper;

    /// <summary>The verdict on a value, or on all values between two bounds.</summary>
    public Verdict Decide(DecisionRule rule, CharacteristicValue value)
    {
        var low = value.Low is { } least ? least.ToDouble() : double.NegativeInfinity;
        var high = value.High is { } most ? most.ToDouble() : double.PositiveInfinity;
        if (low >= AcceptanceLower && high <= AcceptanceUpper)
        {
            return Verdict.Conforms;
        }

        return rule == DecisionRule.FourState ? FourStates(low, high) : IsOutside(low, high, AcceptanceLower, AcceptanceUpper) ? Verdict.DoesNotConform : Verdict.Undecided;
    }

    private Verdict FourStates(double low, double high)
    {
        if (IsOutside(low, high, Lower - Width, Upper + Width))
        {
            return Verdict.DoesNotConform;
        }

        if (low < high)
        {
            return Verdict.Undecided;
        }

        return low >= Lower && high <= Upper ? Verdict.ConformsWithinGuardBand : Verdict.DoesNotConformWithinGuardBand;
    }

    private static bool IsOutside(double low, double high, double lower, double upper) => high < lower || low > upper;

    private static double Number(decimal value) => Ratio.FromDecimal(value).ToDouble();
}
