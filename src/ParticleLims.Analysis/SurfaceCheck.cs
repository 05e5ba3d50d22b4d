using ParticleLims.Analysis.Distributions.Moments;
using ParticleLims.Analysis.Findings;
using ParticleLims.Analysis.Quantities;

namespace ParticleLims.Analysis;

/// <summary>Tells, where a specific surface was asked for, of how much of the mass it is not.</summary>
internal static class SurfaceCheck
{
    public static void Report(SizeMoments? moments, FindingLog log)
    {
        if (moments is null)
        {
            log.Note(FindingCodes.SurfaceOfMeasuredPart, "There is no specific surface: no mass lies between two apertures.");
        }
        else if (moments.BelowPercent.Sign > 0 || moments.AbovePercent.Sign > 0)
        {
            log.Note(
                FindingCodes.SurfaceOfMeasuredPart,
                $"The specific surface is that of the mass between the finest and the coarsest aperture: {Percent(moments.BelowPercent)} % lie below, {Percent(moments.AbovePercent)} % above. The finest part has most of the surface.");
        }
    }

    private static string Percent(Ratio percent) => percent.ToString(2, Rounding.HalfEven);
}
