using System.Globalization;
using ParticleLims.Analysis.Findings;

namespace ParticleLims.Analysis.Conformity;

/// <summary>Tells where two limits lie so near to each other that the measurement can hardly tell them apart (docs/science/guarded-acceptance.md).</summary>
internal static class NarrowLimits
{
    public static void Report(int index, LimitInput limit, double? expandedUncertainty, FindingLog log)
    {
        if (limit is not { Lower: { } lower, Upper: { } upper } || expandedUncertainty is not { } expanded)
        {
            return;
        }

        var band = GuardBand.Of(limit, expanded);
        if (band.IsEmpty)
        {
            log.Find(FindingCodes.LimitEmpty, Words($"The guard bands of {band.Width:G3} on both sides leave no value between {lower} and {upper}: nothing can conform."), $"limits[{index}]");
        }
        else if (band.Upper - band.Lower < 2 * expanded)
        {
            log.Note(FindingCodes.LimitNarrow, Words($"The limits {lower} and {upper} lie nearer to each other than twice the expanded uncertainty of {expanded:G3}."), $"limits[{index}]");
        }
    }

    private static string Words(FormattableString words) => words.ToString(CultureInfo.InvariantCulture);
}
