using ParticleLims.Analysis.Distributions;
using ParticleLims.Analysis.Distributions.Moments;

namespace ParticleLims.Web.Evaluations;

/// <summary>
/// What describes the distribution beyond its percentiles. Means, moments and surfaces are those of the mass between the finest and the coarsest aperture; the shares outside stand beside them.
/// </summary>
public sealed record DistributionAnswer(
    double BelowFinestPercent, double AboveCoarsestPercent, double? ModeMicrometres, QuotientAnswer? Uniformity, QuotientAnswer? Curvature,
    IReadOnlyList<MomentAnswer> Moments, IReadOnlyList<MeanDiameterAnswer> MeanDiameters, double? StandardDeviationMicrometres,
    double? VolumeSpecificSurfaceSquareMetresPerCubicCentimetre, FinenessClass? FinenessClass, QuotientAnswer? FinenessModulus)
{
    /// <summary>Says a summary in the words of the interface; the open ends of the classes are the shares outside.</summary>
    public static DistributionAnswer Of(DistributionSummary summary, IReadOnlyList<SizeClass> classes)
    {
        ArgumentNullException.ThrowIfNull(summary);
        ArgumentNullException.ThrowIfNull(classes);
        return new DistributionAnswer(
            classes[0].Percent.ToDouble(), classes[^1].Percent.ToDouble(),
            summary.Mode?.ModeMicrometres, QuotientAnswer.Of(summary.Uniformity), QuotientAnswer.Of(summary.Curvature),
            summary.Moments is { } moments ? [.. Enumerable.Range(-3, 7).Select(order => new MomentAnswer(order, moments.Moment(order)))] : [],
            summary.Moments is { } means ? Means(means) : [],
            summary.Moments?.StandardDeviationMicrometres, summary.VolumeSpecificSurface, summary.FinenessClass,
            summary.FinenessModulus is { } modulus ? new QuotientAnswer(modulus.Value.ToDouble(), RelationSign.Of(modulus.Relation)) : null);
    }

    private static MeanDiameterAnswer[] Means(SizeMoments moments) =>
        [.. from order in Enumerable.Range(1, 3) from quantity in Enumerable.Range(0, 4) select new MeanDiameterAnswer(order, quantity, moments.Mean(order, quantity))];
}

/// <summary>A number without unit that may be known on one side only.</summary>
public sealed record QuotientAnswer(double Value, string Relation)
{
    /// <summary>Null stays null.</summary>
    public static QuotientAnswer? Of(SizeQuotient? quotient) => quotient is null ? null : new QuotientAnswer(quotient.Value, RelationSign.Of(quotient.Relation));
}

/// <summary>The moment of the mass distribution of an order, in micrometres to the power of the order.</summary>
public sealed record MomentAnswer(int Order, double Value);

/// <summary>The mean diameter of an order by a quantity: 0 number, 1 length, 2 area, 3 mass.</summary>
public sealed record MeanDiameterAnswer(int Order, int Quantity, double Micrometres);

/// <summary>The sign of a relation.</summary>
internal static class RelationSign
{
    public static string Of(Relation relation) => relation switch
    {
        Relation.Equal => "=",
        Relation.Below => "<",
        Relation.Above => ">",
        _ => throw new ArgumentOutOfRangeException(nameof(relation), relation, "Not a relation."),
    };
}
