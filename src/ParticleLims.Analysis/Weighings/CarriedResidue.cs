using ParticleLims.Analysis.Findings;
using ParticleLims.Analysis.Quantities;

namespace ParticleLims.Analysis.Weighings;

/// <summary>
/// One test portion m0 = b1 - t1 on the finest sieve, its residue carried on to the next coarser one:
/// Q_i = 1 - (a_i - t_i) / m0 (docs/science/carried-residue.md).
/// </summary>
internal sealed class CarriedResidue(GainAllowance allowance, ResidueReading reading, TransferLossRule rule, FindingLog log)
{
    private readonly List<MeasuredCut> _measured = [];
    private readonly List<TransferLoss> _losses = [];

    public WeighedTable Evaluate(IReadOnlyList<OrderedCut> cuts, Mass? collected)
    {
        var finest = cuts[0];
        var portion = finest.Loaded - finest.Empty;
        if (portion <= Mass.Zero)
        {
            log.Refuse(
                FindingCodes.PortionZero,
                $"At {finest.Aperture} the loaded sieve weighs {finest.Loaded} and the empty one {finest.Empty}: there is no test portion on it.",
                finest.Member("loadedGrams"));
            return new WeighedTable { Cuts = [] };
        }

        var carried = reading.ResidueOf(finest);
        var retained = Ratio.Of(carried, portion);
        Add(finest, portion, carried, retained);
        for (var i = 1; i < cuts.Count; i++)
        {
            var arrived = Arrived(cuts[i - 1], cuts[i], carried, portion);
            var residue = NotAbove(carried, cuts[i - 1], cuts[i]);
            retained = rule == TransferLossRule.PutBackInProportion ? PutBack(retained, residue, arrived) : Ratio.Of(residue, portion);
            carried = residue;
            Add(cuts[i], portion, residue, retained);
        }

        return new WeighedTable
        {
            Cuts = _measured,
            TransferLosses = _losses,
            RecoveryPercent = collected is { } fines ? Ratio.Hundred * Ratio.Of(carried + fines, portion) : null,
        };
    }

    private static Ratio PutBack(Ratio retained, Mass residue, Mass arrived) =>
        arrived == Mass.Zero ? Ratio.Zero : retained * Ratio.Of(residue <= arrived ? residue : arrived, arrived);

    /// <summary>What lay on the coarser sieve before it was sieved: weighed again, else what was left on the finer one.</summary>
    private Mass Arrived(OrderedCut finer, OrderedCut cut, Mass carried, Mass portion)
    {
        if (cut.Input.Loaded is null)
        {
            return carried;
        }

        var arrived = cut.Loaded - cut.Empty;
        if (allowance.IsExceededBy(Mass.Zero - arrived, 2))
        {
            log.Refuse(
                FindingCodes.ResidueBelowZero,
                $"At {cut.Aperture} the loaded sieve weighs {cut.Loaded} but {cut.Empty} empty. Weigh both again.",
                cut.Member("loadedGrams"));
            return carried;
        }

        if (allowance.IsExceededBy(arrived - carried, 4))
        {
            log.Refuse(
                FindingCodes.MassGained,
                $"{carried} was left at {finer.Aperture} ({finer.After} after sieving), but {arrived} lies at {cut.Aperture} ({cut.Loaded} loaded): it gained {arrived - carried}. Weigh both again.",
                cut.Member("loadedGrams"));
            return carried;
        }

        arrived = arrived < Mass.Zero ? Mass.Zero : arrived;
        Report(finer, cut, carried - arrived, portion);
        return arrived;
    }

    private void Report(OrderedCut finer, OrderedCut cut, Mass lost, Mass portion)
    {
        var loss = new TransferLoss
        {
            From = finer.Aperture,
            To = cut.Aperture,
            Lost = lost,
            PercentOfPortion = Ratio.Hundred * Ratio.Of(lost, portion),
        };
        _losses.Add(loss);
        if (lost != Mass.Zero)
        {
            log.Note(
                FindingCodes.TransferLoss,
                $"Between {finer.Aperture} and {cut.Aperture} {lost} of powder was lost, {loss.PercentOfPortion.ToString(2, Rounding.HalfEven)} % of the test portion.",
                cut.Member("loadedGrams"));
        }
    }

    /// <summary>The residue on a coarser sieve cannot be more than what was left on the finer one.</summary>
    private Mass NotAbove(Mass carried, OrderedCut finer, OrderedCut cut)
    {
        var residue = cut.Input.Loaded is null ? reading.Residue(cut) : reading.ResidueOf(cut);
        var gain = residue - carried;
        if (gain <= Mass.Zero)
        {
            return residue;
        }

        if (allowance.IsExceededBy(gain, 4))
        {
            log.Refuse(
                FindingCodes.MassGained,
                $"{carried} was left at {finer.Aperture} ({finer.After} after sieving), but {residue} at {cut.Aperture} ({cut.After} after sieving): it gained {gain}. Weigh both again.",
                cut.Member("afterGrams"));
        }
        else
        {
            log.Note(
                FindingCodes.ResidueClamped,
                $"At {cut.Aperture} {gain} more was left than at {finer.Aperture}, within the uncertainty of the weighings; the two residues are taken as the same.",
                cut.Member("afterGrams"));
        }

        return carried;
    }

    private void Add(OrderedCut cut, Mass portion, Mass residue, Ratio retained) => _measured.Add(new MeasuredCut
    {
        Aperture = cut.Aperture,
        UsedAperture = cut.UsedAperture,
        Portion = portion,
        Residue = residue,
        RetainedPercent = Ratio.Hundred * retained,
    });
}
