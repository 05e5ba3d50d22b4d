using System.Runtime.Intrinsics;
using ParticleLims.Analysis.Quantities;

namespace ParticleLims.Analysis.Conformity.History;

/// <summary>One limit, held against the distributions of a word at once.</summary>
internal abstract class RowRule
{
    protected const int Vectors = RowBits.InWord / 4;

    /// <summary>A bit for each distribution: whether it conforms, and whether it is undecided.</summary>
    public abstract (ulong Conform, ulong Undecided) Word(int word);

    public static RowRule Of(StoredColumns columns, StoredLimit limit) => limit.Limit.Characteristic switch
    {
        Characteristic.Percentile => new PercentileRows(columns, limit),
        Characteristic.Span => new SpanRows(columns, limit),
        _ => new PassingRows(columns, limit),
    };

    /// <summary>The least and the greatest value accepted, in the characteristic's unit; infinite where there is no bound.</summary>
    protected static (double Lower, double Upper) Accepted(StoredLimit limit)
    {
        var band = GuardBand.Of(limit.Limit, limit.ExpandedUncertainty);
        return (band.AcceptanceLower, band.AcceptanceUpper);
    }

    /// <summary>The verdict on a value of which only a bound is known; the bound counts as sure.</summary>
    protected static Verdict OfBound(StoredLimit limit, CharacteristicValue value) => limit.Limit.Rule == DecisionRule.Simple
        ? SimpleAcceptance.Decide(limit.Limit, value)
        : GuardBand.Of(limit.Limit, limit.ExpandedUncertainty).Decide(limit.Limit.Rule, value);

    /// <summary>All ones where a verdict is this one.</summary>
    protected static Vector256<double> Mask(bool set) => set ? Vector256<double>.AllBitsSet : Vector256<double>.Zero;

    protected static ulong Bits(Vector256<double> mask, int vector) => (ulong)mask.ExtractMostSignificantBits() << (4 * vector);

    protected static double Number(decimal value) => Ratio.FromDecimal(value).ToDouble();
}
