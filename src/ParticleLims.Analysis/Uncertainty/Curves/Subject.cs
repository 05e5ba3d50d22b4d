using ParticleLims.Analysis.Quantities;

namespace ParticleLims.Analysis.Uncertainty.Curves;

/// <summary>A characteristic of which the uncertainty is asked.</summary>
/// <param name="Characteristic">What it is.</param>
/// <param name="Percent">Of a percentile.</param>
/// <param name="Aperture">Of passing and retained.</param>
internal sealed record Subject(Characteristic Characteristic, decimal? Percent, Aperture? Aperture)
{
    public static Subject OfPercentile(decimal percent) => new(Characteristic.Percentile, percent, null);
}
