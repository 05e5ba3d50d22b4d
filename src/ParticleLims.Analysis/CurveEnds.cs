using ParticleLims.Analysis.Distributions;
using ParticleLims.Analysis.Findings;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Analysis.Weighings;

namespace ParticleLims.Analysis;

/// <summary>Tells where a curve that should be straight in a net leaves it, because the net has no 0 and no 100 %.</summary>
internal static class CurveEnds
{
    public static void Report(Interpolation interpolation, IReadOnlyList<MeasuredCut> cuts, Ratio[] passing, FindingLog log)
    {
        if (interpolation is not (Interpolation.RosinRammler or Interpolation.LogNormal))
        {
            return;
        }

        for (var i = 1; i < passing.Length; i++)
        {
            if (passing[i - 1] < passing[i] && (passing[i - 1].Sign == 0 || passing[i] == Ratio.Hundred))
            {
                log.Note(
                    FindingCodes.NetHasNoEnd,
                    $"Between {cuts[i - 1].Aperture} and {cuts[i].Aperture} the curve reaches 0 % or 100 %, where the net has no scale: there it is straight in ln x and percent.");
            }
        }
    }
}
