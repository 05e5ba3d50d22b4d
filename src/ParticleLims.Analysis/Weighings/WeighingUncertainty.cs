using ParticleLims.Analysis.Quantities;

namespace ParticleLims.Analysis.Weighings;

/// <summary>The standard uncertainty of one weighing (docs/science/weighing-uncertainty.md).</summary>
public static class WeighingUncertainty
{
    /// <summary>
    /// u_w = sqrt(s² + d²/12 + l²/3), rounded up to the next microgram: s the balance's repeatability as a standard deviation,
    /// d its readability (a rectangle of width d), l its linearity (a rectangle of half width l).
    /// Source: GUM (JCGM 100:2008) 4.3.7 and F.2.2.1 for the rectangles, 5.1.2 for the sum.
    /// </summary>
    /// <exception cref="ArgumentOutOfRangeException">A term is negative or above 1 kg.</exception>
    public static Mass Of(Mass repeatability, Mass readability, Mass linearity)
    {
        var s = Term(repeatability, nameof(repeatability));
        var d = Term(readability, nameof(readability));
        var l = Term(linearity, nameof(linearity));
        return Mass.FromMicrograms((long)Math.Ceiling(Math.Sqrt((s * s) + (d * d / 12) + (l * l / 3))));
    }

    private static double Term(Mass mass, string name) => mass.Micrograms is >= 0 and <= 1_000_000_000
        ? mass.Micrograms
        : throw new ArgumentOutOfRangeException(name, mass, "A term of a balance's uncertainty lies between 0 g and 1 000 g.");
}
