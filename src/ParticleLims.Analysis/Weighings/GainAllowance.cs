using ParticleLims.Analysis.Quantities;

namespace ParticleLims.Analysis.Weighings;

/// <summary>
/// How far a difference of weighings may lie on the wrong side of zero: three standard uncertainties, where the
/// difference of n independent weighings has the standard uncertainty u_w * sqrt(n) (GUM, JCGM 100:2008, 5.1.2).
/// </summary>
internal sealed class GainAllowance(Mass standardUncertainty)
{
    /// <summary>Whether a gain over so many weighings is beyond what they explain; compared in whole numbers, so exactly.</summary>
    public bool IsExceededBy(Mass gain, int weighings)
    {
        if (gain <= Mass.Zero)
        {
            return false;
        }

        Int128 g = gain.Micrograms;
        Int128 u = standardUncertainty.Micrograms;
        return g * g > 9 * weighings * u * u;
    }
}
