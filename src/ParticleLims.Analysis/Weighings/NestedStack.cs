using ParticleLims.Analysis.Findings;
using ParticleLims.Analysis.Quantities;

namespace ParticleLims.Analysis.Weighings;

/// <summary>
/// All sieves at once over a receiver: w_i = a_i - t_i, R_i is the sum of w on this and all coarser sieves over the
/// basis, recovery W / m0 (docs/science/nested-stack.md).
/// </summary>
internal sealed class NestedStack(GainAllowance allowance, ResidueReading reading, PercentBasis basis, FindingLog log)
{
    public WeighedTable Evaluate(IReadOnlyList<OrderedCut> cuts, ReceiverInput? receiver, Mass? portion)
    {
        var onSieves = cuts.Select(reading.Residue).ToArray();
        var retained = onSieves.Aggregate(Mass.Zero, (sum, mass) => sum + mass);
        var total = receiver is null ? retained : retained + reading.Residue(receiver);
        if (portion is { } given && given <= Mass.Zero)
        {
            log.Refuse(FindingCodes.PortionZero, $"The test portion is {given}: it must be more than nothing.", "portionGrams");
        }

        var whole = basis == PercentBasis.Portion ? portion.GetValueOrDefault() : total;
        if (basis == PercentBasis.SumOfFractions && whole <= Mass.Zero)
        {
            log.Refuse(FindingCodes.PortionZero, "The sieves and the receiver together hold nothing.", "cuts");
        }

        CheckAgainst(whole, retained, cuts.Count);
        return log.HasRefusal
            ? new WeighedTable { Cuts = [] }
            : new WeighedTable { Cuts = Table(cuts, onSieves, retained, whole), RecoveryPercent = Recovery(total, portion, receiver) };
    }

    private static Ratio? Recovery(Mass total, Mass? portion, ReceiverInput? receiver) =>
        portion is { } put && receiver is not null ? Ratio.Hundred * Ratio.Of(total, put) : null;

    private void CheckAgainst(Mass whole, Mass retained, int sieves)
    {
        var gain = retained - whole;
        if (allowance.IsExceededBy(gain, (2 * sieves) + 1))
        {
            log.Refuse(
                FindingCodes.MassGained,
                $"The sieves hold {retained}, but only {whole} was put on: it gained {gain}. Weigh the sieves and the test portion again.",
                "portionGrams");
        }
        else if (gain > Mass.Zero)
        {
            log.Note(
                FindingCodes.ResidueClamped,
                $"The sieves hold {gain} more than was put on, within the uncertainty of the weighings; more than 100 % is taken as 100 %.",
                "portionGrams");
        }
    }

    private static List<MeasuredCut> Table(IReadOnlyList<OrderedCut> cuts, Mass[] onSieves, Mass retained, Mass whole)
    {
        var measured = new List<MeasuredCut>(cuts.Count);
        var coarser = retained;
        for (var i = 0; i < cuts.Count; i++)
        {
            measured.Add(new MeasuredCut
            {
                Aperture = cuts[i].Aperture,
                UsedAperture = cuts[i].UsedAperture,
                Portion = whole,
                Residue = onSieves[i],
                RetainedPercent = Ratio.Hundred * Ratio.Of(coarser <= whole ? coarser : whole, whole),
            });
            coarser -= onSieves[i];
        }

        return measured;
    }
}
