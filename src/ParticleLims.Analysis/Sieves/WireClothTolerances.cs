using ParticleLims.Analysis.Distributions.Functions;
using ParticleLims.Analysis.Quantities;

namespace ParticleLims.Analysis.Sieves;

/// <summary>
/// The permissible deviations of woven wire cloth by the formulas of ISO 3310-1:1990 and 2000, from memory (docs/science/sieve-tolerances.md). Later editions tabulate other values at large
/// apertures: this is a start, to be replaced by the table of the edition that the laboratory holds.
/// </summary>
public static class WireClothTolerances
{
    /// <summary>All sizes of ISO 565 from 125 mm to 20 µm, rounded to 0.1 µm.</summary>
    public static ToleranceTable Table { get; } = ToleranceTable.From(
        "ISO 3310-1:1990/2000", "Formulas, from memory; not compared with the document.", SieveSeries.Sizes.Select(size => Row(size.Aperture)));

    /// <summary>Y = w^0.98 / 27 + 1.6, in µm: how far the mean may be from the nominal aperture w in µm, 20 to 125 000.</summary>
    /// <exception cref="ArgumentOutOfRangeException">An aperture below 20 µm or above 125 mm.</exception>
    public static double MeanDeviation(Aperture nominal) => (Exponential.Of(0.98 * NaturalLogarithm.Of(Size(nominal))) / 27) + 1.6;

    /// <summary>X = 2 w^0.75 / 3 + 4 w^0.25, in µm: how far above nominal a single aperture may be.</summary>
    /// <exception cref="ArgumentOutOfRangeException">An aperture below 20 µm or above 125 mm.</exception>
    public static double SingleDeviation(Aperture nominal)
    {
        var half = Math.Sqrt(Size(nominal));
        var quarter = Math.Sqrt(half);
        return (2 * half * quarter / 3) + (4 * quarter);
    }

    /// <summary>Z = (X + Y) / 2, in µm: not more than six of a hundred apertures may be more than this above nominal.</summary>
    /// <exception cref="ArgumentOutOfRangeException">An aperture below 20 µm or above 125 mm.</exception>
    public static double IntermediateDeviation(Aperture nominal) => (MeanDeviation(nominal) + SingleDeviation(nominal)) / 2;

    private static ToleranceRow Row(Aperture nominal) => new()
    {
        Nominal = nominal,
        MeanMicrometres = Tenths(MeanDeviation(nominal)),
        SingleMicrometres = Tenths(SingleDeviation(nominal)),
        IntermediateMicrometres = Tenths(IntermediateDeviation(nominal)),
    };

    private static decimal Tenths(double micrometres) => (decimal)Math.Round(micrometres * 10) / 10;

    private static double Size(Aperture nominal) => nominal.Micrometres is >= 20m and <= 125_000m
        ? nominal.Nanometres / 1_000.0
        : throw new ArgumentOutOfRangeException(nameof(nominal), nominal, "The formulas hold from 20 µm to 125 mm.");
}
