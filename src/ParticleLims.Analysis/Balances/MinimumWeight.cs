using ParticleLims.Analysis.Quantities;

namespace ParticleLims.Analysis.Balances;

/// <summary>
/// The smallest mass that a balance weighs well enough (docs/science/minimum-weight.md): 2 s / 0.0010, with s at least 0.41 d. Source: USP &lt;41&gt;, as quoted publicly: factor 2, 0.10 %, at
/// least ten weighings, s not below 0.41 of the readability.
/// </summary>
public static class MinimumWeight
{
    /// <summary>The smallest net mass, rounded up to the next microgram.</summary>
    /// <param name="repeatability">s of at least ten weighings.</param>
    /// <param name="readability">d, the last digit.</param>
    /// <exception cref="ArgumentOutOfRangeException">A repeatability below 0 g, a readability of 0 g or below, or one of them above 1 kg.</exception>
    public static Mass Of(Mass repeatability, Mass readability)
    {
        if (repeatability.Micrograms is < 0 or > 1_000_000_000)
        {
            throw new ArgumentOutOfRangeException(nameof(repeatability), repeatability, "The repeatability lies between 0 g and 1 000 g.");
        }

        if (readability.Micrograms is <= 0 or > 1_000_000_000)
        {
            throw new ArgumentOutOfRangeException(nameof(readability), readability, "The readability lies above 0 g and at most at 1 000 g.");
        }

        return Mass.FromMicrograms(Math.Max(2_000 * repeatability.Micrograms, 820 * readability.Micrograms));
    }
}
