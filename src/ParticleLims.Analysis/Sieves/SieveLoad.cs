using ParticleLims.Analysis.Quantities;

namespace ParticleLims.Analysis.Sieves;

/// <summary>
/// How much powder may lie on a sieve at the end of sieving, so that every particle has the chance to reach an aperture (docs/science/sieve-load.md). Source: ASTM C136/C136M-14, as quoted in a public check
/// list: below 4.75 mm at most 7 kg/m²; from 4.75 mm on at most 2.5 kg/(mm m²) times aperture and area.
/// </summary>
public static class SieveLoad
{
    private const double KilogramsPerSquareMetre = 7;
    private const double KilogramsPerMillimetreAndSquareMetre = 2.5;
    private static readonly Aperture Coarse = Aperture.FromMicrometres(4_750m);

    /// <summary>The rim that no powder passes, in mm: the area is that of a circle so much narrower than the frame. Source: the same, which gives 200 g for 8 inches and 469 g for 12 inches.</summary>
    private const double RimMillimetres = 12.7;

    /// <summary>The most that may lie on a sieve.</summary>
    /// <param name="nominal">Its nominal aperture.</param>
    /// <param name="frameMillimetres">The diameter of its frame, 50 to 1000 mm.</param>
    /// <exception cref="ArgumentOutOfRangeException">A frame outside its range.</exception>
    public static Mass Most(Aperture nominal, int frameMillimetres)
    {
        var area = SquareMetres(frameMillimetres);
        var kilograms = nominal < Coarse ? KilogramsPerSquareMetre * area : KilogramsPerMillimetreAndSquareMetre * (double)(nominal.Micrometres / 1_000m) * area;
        return Mass.FromMicrograms((long)Math.Floor(kilograms * 1e9));
    }

    /// <summary>The sieving area in m².</summary>
    private static double SquareMetres(int frameMillimetres)
    {
        if (frameMillimetres is < 50 or > 1_000)
        {
            throw new ArgumentOutOfRangeException(nameof(frameMillimetres), frameMillimetres, "A frame is 50 to 1000 mm wide.");
        }

        // ISO 3310 frames are named by the width inside, inch frames by the same; both lose the fillet.
        var metres = (frameMillimetres - RimMillimetres) / 1_000;
        return Math.PI * metres * metres / 4;
    }
}
