namespace ParticleLims.Analysis.Distributions;

/// <summary>A quotient of percentiles, without unit, which may be known on one side only.</summary>
public sealed record SizeQuotient
{
    /// <summary>The quotient, without unit, or the bound that the relation speaks of.</summary>
    public required double Value { get; init; }

    /// <summary>Whether it is this, below it or above it.</summary>
    public required Relation Relation { get; init; }

    /// <summary>
    /// The coefficient of uniformity D60/D10; the larger, the wider. Null where nothing can be said (ISO 14688-2; docs/science/uniformity.md).
    /// </summary>
    /// <param name="curve">The curve.</param>
    public static SizeQuotient? Uniformity(DistributionCurve curve)
    {
        ArgumentNullException.ThrowIfNull(curve);
        var (fine, coarse) = (curve.Percentile(10m), curve.Percentile(60m));
        return Of(coarse.Micrometres / fine.Micrometres, [coarse.Relation, Opposite(fine.Relation)]);
    }

    /// <summary>
    /// The coefficient of curvature D30²/(D10 D60); one for a straight line over ln x. Null where nothing can be said (ISO 14688-2;
    /// docs/science/uniformity.md).
    /// </summary>
    /// <param name="curve">The curve.</param>
    public static SizeQuotient? Curvature(DistributionCurve curve)
    {
        ArgumentNullException.ThrowIfNull(curve);
        var (fine, middle, coarse) = (curve.Percentile(10m), curve.Percentile(30m), curve.Percentile(60m));
        var value = middle.Micrometres / fine.Micrometres * (middle.Micrometres / coarse.Micrometres);
        return Of(value, [Opposite(fine.Relation), middle.Relation, Opposite(coarse.Relation)]);
    }

    /// <summary>Bounds that pull to one side leave a bound; such as pull to both sides leave nothing.</summary>
    private static SizeQuotient? Of(double value, ReadOnlySpan<Relation> pulls)
    {
        var (below, above) = (pulls.Contains(Relation.Below), pulls.Contains(Relation.Above));
        return below && above ? null : new SizeQuotient { Value = value, Relation = below ? Relation.Below : above ? Relation.Above : Relation.Equal };
    }

    private static Relation Opposite(Relation relation) => relation switch
    {
        Relation.Below => Relation.Above,
        Relation.Above => Relation.Below,
        _ => relation,
    };
}
