namespace ParticleLims.Analysis.Distributions;

/// <summary>
/// The class of powder fineness by the median (United States Pharmacopeia chapter 811, European Pharmacopoeia 2.9.35;
/// docs/science/fineness-class.md).
/// </summary>
public enum FinenessClass
{
    /// <summary>The median is 125 µm or finer.</summary>
    VeryFine,

    /// <summary>The median lies above 125 µm and up to 180 µm.</summary>
    Fine,

    /// <summary>The median lies above 180 µm and up to 355 µm.</summary>
    ModeratelyFine,

    /// <summary>The median lies above 355 µm.</summary>
    Coarse,
}

/// <summary>Tells the class of powder fineness.</summary>
public static class PowderFineness
{
    private const double VeryFine = 125;
    private const double Fine = 180;
    private const double ModeratelyFine = 355;

    /// <summary>The class; null where the median lies outside the measured apertures and could belong to more than one.</summary>
    /// <param name="curve">The curve.</param>
    public static FinenessClass? Of(DistributionCurve curve)
    {
        ArgumentNullException.ThrowIfNull(curve);
        var median = curve.Percentile(50m);
        return median.Relation switch
        {
            Relation.Equal => At(median.Micrometres),
            Relation.Below when median.Micrometres <= VeryFine => FinenessClass.VeryFine,
            Relation.Above when median.Micrometres >= ModeratelyFine => FinenessClass.Coarse,
            _ => null,
        };
    }

    private static FinenessClass At(double median) => median switch
    {
        <= VeryFine => FinenessClass.VeryFine,
        <= Fine => FinenessClass.Fine,
        <= ModeratelyFine => FinenessClass.ModeratelyFine,
        _ => FinenessClass.Coarse,
    };
}
