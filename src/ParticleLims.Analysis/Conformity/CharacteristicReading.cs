using ParticleLims.Analysis.Distributions;
using ParticleLims.Analysis.ModelFits;
using ParticleLims.Analysis.Quantities;

namespace ParticleLims.Analysis.Conformity;

/// <summary>Reads off a curve and its models what a limit speaks of.</summary>
internal static class CharacteristicReading
{
    /// <summary>Null where the run has no such value, as with a model that could not be fitted.</summary>
    public static CharacteristicValue? Read(DistributionCurve curve, IReadOnlyList<FittedModel> models, DistributionSummary? summary, LimitInput limit) =>
        limit.Characteristic switch
        {
            Characteristic.Percentile => Size(curve.Percentile(limit.Percent.GetValueOrDefault())),
            Characteristic.Passing => Passing(curve, limit.Aperture.GetValueOrDefault()),
            Characteristic.Retained => Retained(curve, limit.Aperture.GetValueOrDefault()),
            Characteristic.Span => Span(curve.Span()),
            Characteristic.RosinRammlerSlope => Line(models) is { } line ? CharacteristicValue.Nearly(line.Slope) : null,
            Characteristic.RosinRammlerSize => Line(models) is { } line ? CharacteristicValue.Nearly(line.SizeMicrometres) : null,
            Characteristic.SpecificSurface => summary?.MassSpecificSurface is { } surface ? CharacteristicValue.Nearly(surface) : null,
            _ => null,
        };

    private static FittedModel? Line(IReadOnlyList<FittedModel> models) =>
        models.FirstOrDefault(model => model is { Model: Model.RosinRammler, Method: FitMethod.StraightLine });

    private static CharacteristicValue Size(Percentile percentile)
    {
        var size = Ratio.FromDouble(percentile.Micrometres);
        return percentile.Relation switch
        {
            Relation.Below => CharacteristicValue.BelowOf(size, false, true),
            Relation.Above => CharacteristicValue.AboveOf(size, false, true),
            _ => CharacteristicValue.Known(size, false),
        };
    }

    private static CharacteristicValue Span(Span span) => span.Relation == Relation.Equal
        ? CharacteristicValue.Nearly(span.Value)
        : CharacteristicValue.AboveOf(Ratio.FromDouble(span.Value), false, true);

    /// <summary>Below the finest aperture no more passes than there, above the coarsest no less; the bound itself may be reached.</summary>
    private static CharacteristicValue Passing(DistributionCurve curve, Aperture aperture)
    {
        var (finest, coarsest) = (curve.Points[0], curve.Points[^1]);
        if (aperture < finest.Aperture)
        {
            return CharacteristicValue.BelowOf(finest.PassingPercent, true, false);
        }

        if (aperture > coarsest.Aperture)
        {
            return CharacteristicValue.AboveOf(coarsest.PassingPercent, true, false, Ratio.Hundred);
        }

        var (percent, exact) = curve.PercentWithin(aperture);
        return CharacteristicValue.Known(percent, exact);
    }

    private static CharacteristicValue Retained(DistributionCurve curve, Aperture aperture)
    {
        var passing = Passing(curve, aperture);
        var retained = Ratio.Hundred - passing.Reported;
        return passing.Relation switch
        {
            Relation.Below => CharacteristicValue.AboveOf(retained, true, false, Ratio.Hundred),
            Relation.Above => CharacteristicValue.BelowOf(retained, true, false),
            _ => CharacteristicValue.Known(retained, passing.IsExact),
        };
    }
}
