using ParticleLims.Analysis.Statistics.Arithmetic;

namespace ParticleLims.Analysis.Sampling;

/// <summary>
/// Gy's constant of a material for the content of one mineral, C = f g l m (docs/science/fundamental-sampling-error.md). Source: Gy's formula as in the worked example of Wills,
/// Mineral Processing Technology (1982), publicly quoted.
/// </summary>
public sealed record GyConstant
{
    /// <summary>The shape factor f, without unit: 0.5 for compact particles, 0.2 for flakes.</summary>
    public required double Shape { get; init; }

    /// <summary>The size range factor g, without unit: 0.25 for unsieved material (d95/d5 above 4), 0.5 (2 to 4), 0.75 (below 2), 1 for equal sizes.</summary>
    public required double SizeRange { get; init; }

    /// <summary>The mineralogical factor m in g/cm³ (grams per cubic centimetre).</summary>
    public required double Mineralogical { get; init; }

    /// <summary>The size L in cm at which the mineral is free of the others. The liberation factor l is √(L / top size), 1 below L; it is without unit.</summary>
    public required double LiberationCentimetres { get; init; }

    /// <summary>m = (1 - a)/a ((1 - a) ρ + a ρ'), in grams per cubic centimetre.</summary>
    /// <param name="share">a, the mass fraction of the mineral, between 0 and 1.</param>
    /// <param name="mineralDensity">ρ in g/cm³.</param>
    /// <param name="restDensity">ρ' of the rest, in g/cm³.</param>
    /// <exception cref="ArgumentOutOfRangeException">A share outside 0 to 1 or a density that is not above zero.</exception>
    public static double MineralogicalFactor(double share, double mineralDensity, double restDensity)
    {
        Given.Probability(share, nameof(share));
        return (1 - share) / share * (((1 - share) * Given.Positive(mineralDensity, nameof(mineralDensity))) + (share * Given.Positive(restDensity, nameof(restDensity))));
    }

    /// <summary>C for a top size, in grams per cubic centimetre.</summary>
    /// <param name="topSizeCentimetres">The size that 5 % are coarser than, in cm; above zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">A factor or size is not above zero.</exception>
    public double At(double topSizeCentimetres)
    {
        var size = Given.Positive(topSizeCentimetres, nameof(topSizeCentimetres));
        var free = Given.Positive(LiberationCentimetres, nameof(LiberationCentimetres));
        return Given.Positive(Shape, nameof(Shape)) * Given.Positive(SizeRange, nameof(SizeRange)) * Math.Sqrt(Math.Min(1, free / size))
            * Given.Positive(Mineralogical, nameof(Mineralogical));
    }
}
