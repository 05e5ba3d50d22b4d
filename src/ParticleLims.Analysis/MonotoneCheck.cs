using ParticleLims.Analysis.Findings;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Analysis.Uncertainty;
using ParticleLims.Analysis.Weighings;

namespace ParticleLims.Analysis;

/// <summary>
/// Tells where passing decreases from one aperture to the next coarser one, which only independent portions can do. A decrease greater than
/// its expanded uncertainty (k = 2) is a finding, a smaller one a note
/// (docs/science/monotone-repair.md).
/// </summary>
internal static class MonotoneCheck
{
    public static void Report(IReadOnlyList<MeasuredCut> cuts, Mass weighingUncertainty, MeasurementModel? model, FindingLog log)
    {
        for (var i = 1; i < cuts.Count; i++)
        {
            var (finer, coarser) = (cuts[i - 1], cuts[i]);
            var decrease = finer.PassingPercent - coarser.PassingPercent;
            if (decrease.Sign <= 0)
            {
                continue;
            }

            var message = $"Passing is not monotone between {finer.Aperture} and {coarser.Aperture}: {Percent(finer)} and {Percent(coarser)} %.";
            if (decrease.ToDouble() > 2 * 100 * Math.Sqrt(model is null ? Variance(finer, weighingUncertainty) + Variance(coarser, weighingUncertainty) : Variance(model, i)))
            {
                log.Find(FindingCodes.NotMonotone, message);
            }
            else
            {
                log.Note(FindingCodes.NotMonotone, message + (model is null ? " The weighings alone explain it." : " Its uncertainty explains it."));
            }
        }

        log.Note(
            FindingCodes.CurveRepaired,
            $"The percentiles and fractions come from the curve made monotone by pooling adjacent violators with {(model is { HasWeights: true } ? "weights of one over the squared uncertainty" : "equal weights")}; the table shows what was measured.");
    }

    /// <summary>That of the difference of two neighbours, with what they share; as a fraction.</summary>
    private static double Variance(MeasurementModel model, int coarser)
    {
        var (n, i) = (model.Percent.Length, coarser - 1);
        return (model.Covariance[(i * n) + i] + model.Covariance[(coarser * n) + coarser] - (2 * model.Covariance[(i * n) + coarser])) / 10_000;
    }

    /// <summary>u²(R) = (u_w / m)² (1 + (1 - R)² + R²) for R = (a - t) / (b - t); nothing for a given distribution.</summary>
    private static double Variance(MeasuredCut cut, Mass weighingUncertainty)
    {
        if (cut.Portion is not { } portion)
        {
            return 0;
        }

        var relative = Ratio.Of(weighingUncertainty, portion).ToDouble();
        var retained = cut.RetainedPercent.ToDouble() / 100;
        return relative * relative * (1 + ((1 - retained) * (1 - retained)) + (retained * retained));
    }

    private static string Percent(MeasuredCut cut) => cut.PassingPercent.ToString(2, Rounding.HalfEven);
}
