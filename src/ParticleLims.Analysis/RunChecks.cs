using ParticleLims.Analysis.Findings;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Analysis.Weighings;

namespace ParticleLims.Analysis;

/// <summary>Holds the recovery and the transfer losses of a run against its method.</summary>
internal static class RunChecks
{
    public static void Run(EvaluationRequest request, WeighedTable table, FindingLog log)
    {
        if (table.RecoveryPercent is { } recovery)
        {
            Recovery(request, recovery, log);
        }

        if (request.Settings.MaximumTransferLossPercent is { } limit && table.TransferLosses.Count > 0)
        {
            var lost = table.TransferLosses.Aggregate(Ratio.Zero, (sum, loss) => sum + loss.PercentOfPortion);
            if (lost > Ratio.FromDecimal(limit))
            {
                log.Find(
                    FindingCodes.TransferLossHigh,
                    $"{Percent(lost)} % of the test portion was lost between the sieves; the method allows {Percent(Ratio.FromDecimal(limit))} %.");
            }
        }

        if (request.Cuts.Any(cut => cut.EffectiveAperture is not null))
        {
            log.Note(FindingCodes.EffectiveApertureUnused, "Effective apertures were given, but the settings say nominal: the nominal ones were used.");
        }
    }

    private static void Recovery(EvaluationRequest request, Ratio recovery, FindingLog log)
    {
        if (request.Settings.MinimumRecoveryPercent is { } minimum && recovery < Ratio.FromDecimal(minimum))
        {
            log.Find(
                FindingCodes.RecoveryLow,
                $"{Percent(recovery)} % of the test portion was found again; the method asks for at least {Percent(Ratio.FromDecimal(minimum))} %.");
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
