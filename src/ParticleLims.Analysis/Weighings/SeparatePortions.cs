using ParticleLims.Analysis.Findings;
using ParticleLims.Analysis.Quantities;

namespace ParticleLims.Analysis.Weighings;

/// <summary>
/// A new test portion on each sieve: m = b - t, R = (a - t) / m, Q = 1 - R. Each point stands alone
/// (docs/science/separate-portions.md).
/// </summary>
internal static class SeparatePortions
{
    public static WeighedTable Evaluate(IReadOnlyList<OrderedCut> cuts, Mass? collected, ResidueReading reading, FindingLog log)
    {
        var measured = new List<MeasuredCut>(cuts.Count);
        foreach (var cut in cuts)
        {
            var portion = cut.Loaded - cut.Empty;
            if (portion <= Mass.Zero)
            {
                log.Refuse(
                    FindingCodes.PortionZero,
                    $"At {cut.Aperture} the loaded sieve weighs {cut.Loaded} and the empty one {cut.Empty}: there is no test portion on it.",
                    cut.Member("loadedGrams"));
                continue;
            }

            var residue = reading.ResidueOf(cut);
            measured.Add(new MeasuredCut
            {
                Aperture = cut.Aperture,
                UsedAperture = cut.UsedAperture,
                Portion = portion,
                Residue = residue,
                RetainedPercent = Ratio.Hundred * Ratio.Of(residue, portion),
            });
        }

        return new WeighedTable { Cuts = measured, RecoveryPercent = log.HasRefusal ? null : Recovery(measured, collected) };
    }

    private static Ratio? Recovery(List<MeasuredCut> measured, Mass? collected)
    {
        if (collected is not { } fines)
        {
            return null;
        }

        var portions = Mass.Zero;
        foreach (var cut in measured)
        {
            portions += cut.Portion.GetValueOrDefault();
            fines += cut.Residue.GetValueOrDefault();
        }

        return Ratio.Hundred * Ratio.Of(fines, portions);
    }
}
