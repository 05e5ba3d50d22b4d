using ParticleLims.Analysis.Findings;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Analysis.Weighings;

namespace ParticleLims.Analysis;

/// <summary>Holds the recovery and the transfer losses of a run against its method.</summary>
internal static class RunChecks
{
    public static void Run(EvaluationRequest request, WeighedTable table, FindingLog log)
    {
        Recovery(request, table.RecoveryPercent, log);
        TransferLosses(request, table, log);
        if (request.Settings.Apertures == ApertureChoice.Effective)
        {
            EffectiveApertures(request, log);
        }
        else if (request.Cuts.Any(cut => cut.EffectiveAperture is not null))
        {
            log.Note(FindingCodes.EffectiveApertureUnused, "Effective apertures were given, but the settings say nominal: the nominal ones were used.");
        }
    }

    private static void EffectiveApertures(EvaluationRequest request, FindingLog log)
    {
        for (var i = 0; i < request.Cuts.Count; i++)
        {
            if (request.Cuts[i].EffectiveAperture is null)
            {
                log.Note(FindingCodes.EffectiveApertureMissing, $"The sieve {request.Cuts[i].Aperture} has no effective aperture; its nominal one was used.", $"cuts[{i}].effectiveApertureMicrometres");
            }
        }
    }

    private static void TransferLosses(EvaluationRequest request, WeighedTable table, FindingLog log)
    {
        if (request.Procedure != Procedure.CarriedResidue || request.Settings.MaximumTransferLossPercent is not { } limit)
        {
            return;
        }

        if (table.TransferLosses.Count < table.Cuts.Count - 1)
        {
            log.Find(
                FindingCodes.TransferLossUnknown,
                "The method limits what may be lost between the sieves, but not every residue was weighed again on the next sieve.");
        }

        var lost = table.TransferLosses.Aggregate(Ratio.Zero, (sum, loss) => sum + loss.PercentOfPortion);
        if (lost > Ratio.FromDecimal(limit))
        {
            log.Find(
                FindingCodes.TransferLossHigh,
                $"{Percent(lost)} % of the test portion was lost between the sieves; the method allows {Percent(Ratio.FromDecimal(limit))} %.");
        }
    }

    private static void Recovery(EvaluationRequest request, Ratio? found, FindingLog log)
    {
        var minimum = request.Settings.MinimumRecoveryPercent;
        if (found is not { } recovery)
        {
            if (minimum is not null)
            {
                log.Find(FindingCodes.RecoveryUnknown, "The method asks for a least recovery, but what is needed to know it was not weighed.");
            }

            return;
        }

        if (minimum is { } least && recovery < Ratio.FromDecimal(least))
        {
            log.Find(
                FindingCodes.RecoveryLow,
                $"{Percent(recovery)} % of the test portion was found again; the method asks for at least {Percent(Ratio.FromDecimal(least))} %.");
        }

        if (recovery > Ratio.Hundred)
        {
            log.Find(FindingCodes.RecoveryAboveWhole, $"{Percent(recovery)} % of the test portion was found again: more than was put on.");
        }

        if (request.Collected is not null)
        {
            log.Note(FindingCodes.RecoveryIsLowerBound, "The recovery with a collector is a lower bound: a cyclone lets the finest powder through.");
        }
    }

    private static string Percent(Ratio percent) => percent.ToString(2, Rounding.HalfEven);
}
