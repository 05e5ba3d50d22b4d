using ParticleLims.Analysis.Findings;
using ParticleLims.Analysis.Quantities;

namespace ParticleLims.Analysis.Weighings;

/// <summary>Reads the mass left on a sieve, refuses the impossible and sets the slightly impossible to the nearest possible.</summary>
internal sealed class ResidueReading(GainAllowance allowance, FindingLog log)
{
    /// <summary>What stayed on the sieve: after less empty, not below zero.</summary>
    public Mass Residue(OrderedCut cut) =>
        NotBelowZero(cut.After - cut.Empty, $"At {cut.Aperture} the sieve", cut.Empty, cut.After, cut.Member("afterGrams"));

    /// <summary>What the receiver caught: after less empty, not below zero.</summary>
    public Mass Residue(ReceiverInput receiver) =>
        NotBelowZero(receiver.After - receiver.Empty, "The receiver", receiver.Empty, receiver.After, "receiver.afterGrams");

    /// <summary>The residue of a sieve that was weighed loaded: it cannot have gained.</summary>
    public Mass ResidueOf(OrderedCut cut)
    {
        var gain = cut.After - cut.Loaded;
        if (allowance.IsExceededBy(gain, 2))
        {
            log.Refuse(
                FindingCodes.MassGained,
                $"At {cut.Aperture} the sieve weighs {cut.After} after sieving but {cut.Loaded} loaded: it gained {gain}. Weigh both again.",
                cut.Member("afterGrams"));
            return Mass.Zero;
        }

        if (gain > Mass.Zero)
        {
            log.Note(
                FindingCodes.ResidueClamped,
                $"At {cut.Aperture} the sieve weighs {gain} more after sieving than loaded, within the uncertainty of the weighings; the residue is taken as the whole portion.",
                cut.Member("afterGrams"));
            return cut.Loaded - cut.Empty;
        }

        return Residue(cut);
    }

    private Mass NotBelowZero(Mass residue, string what, Mass empty, Mass after, string member)
    {
        if (residue >= Mass.Zero)
        {
            return residue;
        }

        var missing = empty - after;
        if (allowance.IsExceededBy(missing, 2))
        {
            log.Refuse(
                FindingCodes.ResidueBelowZero,
                $"{what} weighs {after} after sieving but {empty} empty: {missing} is missing. Weigh both again.",
                member);
        }
        else
        {
            log.Note(
                FindingCodes.ResidueClamped,
                $"{what} weighs {missing} less after sieving than empty, within the uncertainty of the weighings; the residue is taken as zero.",
                member);
        }

        return Mass.Zero;
    }
}
