using ParticleLims.Analysis.Quantities;

namespace ParticleLims.Analysis.Distributions;

/// <summary>Which sieves a fineness modulus counts.</summary>
public enum ModulusSeries
{
    /// <summary>150, 300, 600 µm, 1.18, 2.36, 4.75, 9.5, 19, 37.5, 75 and 150 mm (ASTM C125).</summary>
    FromFineSand,

    /// <summary>0.25, 0.5, 1, 2, 4, 8, 16, 31.5 and 63 mm (the k-value of concrete aggregate, DIN 1045-2).</summary>
    KValue,
}

/// <summary>
/// The sum of the cumulative percentages retained on a fixed series of sieves, over one hundred; the larger, the coarser
/// (docs/science/fineness-modulus.md).
/// </summary>
public sealed record FinenessModulus
{
    private static readonly long[] FineSand = [150, 300, 600, 1_180, 2_360, 4_750, 9_500, 19_000, 37_500, 75_000, 150_000];
    private static readonly long[] Concrete = [250, 500, 1_000, 2_000, 4_000, 8_000, 16_000, 31_500, 63_000];

    /// <summary>The modulus, exactly, without unit.</summary>
    public required Ratio Value { get; init; }

    /// <summary>Equal, or above where not everything passes the coarsest aperture and coarser sieves of the series might have retained some.</summary>
    public required Relation Relation { get; init; }

    /// <summary>The modulus; null where a sieve of the series between the finest and the coarsest was not used, so that it would be a guess.</summary>
    /// <param name="curve">The curve.</param>
    /// <param name="series">The series of sieves.</param>
    public static FinenessModulus? Of(DistributionCurve curve, ModulusSeries series)
    {
        ArgumentNullException.ThrowIfNull(curve);
        var (sum, counted, relation) = (Ratio.Zero, 0, Relation.Equal);
        var above = Ratio.Hundred - curve.Points[^1].PassingPercent;
        foreach (var aperture in (series == ModulusSeries.KValue ? Concrete : FineSand).Select(size => Aperture.FromNanometres(size * 1_000)))
        {
            if (aperture > curve.Points[^1].Aperture)
            {
                relation = above.Sign > 0 ? Relation.Above : relation;
                continue;
            }

            if (RetainedOn(curve, aperture) is not { } retained)
            {
                return null;
            }

            (sum, counted) = (sum + retained, counted + 1);
        }

        return counted == 0 && above.Sign > 0 ? null : new FinenessModulus { Value = sum / Ratio.Hundred, Relation = relation };
    }

    private static Ratio? RetainedOn(DistributionCurve curve, Aperture aperture)
    {
        if (aperture < curve.Points[0].Aperture)
        {
            return curve.Points[0].PassingPercent.Sign == 0 ? Ratio.Hundred : null;
        }

        var upper = 0;
        while (curve.Points[upper].Aperture < aperture)
        {
            upper++;
        }

        var point = curve.Points[upper];
        return point.Aperture == aperture || point.PassingPercent == curve.Points[upper - 1].PassingPercent ? Ratio.Hundred - point.PassingPercent : null;
    }
}
