using ParticleLims.Analysis.Distributions.Functions;

namespace ParticleLims.Analysis.ModelFits;

/// <summary>A model laid through the measured points (not through the curve that was made monotone).</summary>
public sealed record FittedModel
{
    /// <summary>Which distribution.</summary>
    public required Model Model { get; init; }

    /// <summary>How it was fitted.</summary>
    public required FitMethod Method { get; init; }

    /// <summary>
    /// The position in micrometres (µm). Rosin-Rammler: x', where R = 1/e = 36.8 %; log-normal: the median; Gates-Gaudin-Schuhmann: the top size k.
    /// </summary>
    public required double SizeMicrometres { get; init; }

    /// <summary>
    /// The shape without unit, the slope of the line in the model's net; the larger, the narrower. Rosin-Rammler: n; log-normal: one over the
    /// logarithm of the geometric standard deviation; Gates-Gaudin-Schuhmann: m.
    /// </summary>
    public required double Slope { get; init; }

    /// <summary>The ordinate of the fitted line at ln(1 µm) = 0, in its own net: -slope ln(position).</summary>
    public required double Intercept { get; init; }

    /// <summary>The standard error of the position in micrometres (µm); null where there is none, as with two points.</summary>
    public double? SizeStandardError { get; init; }

    /// <summary>The standard error of the slope, without unit; null where there is none, as with two points.</summary>
    public double? SlopeStandardError { get; init; }

    /// <summary>The covariance of position and slope in micrometres (µm); null where there is none, as with two points.</summary>
    public double? SizeSlopeCovariance { get; init; }

    /// <summary>
    /// Straight line: the square of the correlation coefficient in the net, from 0 to 1. Weighted least squares: one less the ratio of
    /// the weighed squares about the model to those about their mean; at most 1.
    /// </summary>
    public required double RSquared { get; init; }

    /// <summary>
    /// The weighed sum of squared residuals per degree of freedom. With given uncertainties without unit, near one for a good fit; without them in
    /// percent squared; for a straight line in squares of the net's ordinate. Null with two points.
    /// </summary>
    public double? ReducedChiSquare { get; init; }

    /// <summary>
    /// Akaike's criterion corrected for few points, without unit: of the models fitted to the same points the one with the smallest is to be preferred.
    /// Null with fewer than five points (without given uncertainties) or a fit without residuals (docs/science/information-criterion.md).
    /// </summary>
    public double? Aicc { get; init; }

    /// <summary>How far each point that took part lies from the model, finest aperture first.</summary>
    public IReadOnlyList<FitResidual> Residuals { get; init; } = [];

    /// <summary>How many points took part.</summary>
    public required int PointsUsed { get; init; }

    /// <summary>How many were left out because they lie at 0 or 100 %.</summary>
    public required int PointsLeftOut { get; init; }

    /// <summary>The share of the mass below the finest measured aperture by the model, in percent; null where no aperture is known.</summary>
    public double? ShareBelowPercent { get; init; }

    /// <summary>The share of the mass above the coarsest measured aperture by the model, in percent; null where no aperture is known.</summary>
    public double? ShareAbovePercent { get; init; }

    /// <summary>Why this fit should not be trusted, in words; null where nothing speaks against it (docs/science/fit-cautions.md).</summary>
    public string? Caution { get; init; }

    /// <summary>Log-normal: the geometric standard deviation, D84.13/D50, without unit; null for the other models.</summary>
    public double? GeometricStandardDeviation => Model == Model.LogNormal ? Exponential.Of(1 / Slope) : null;

    /// <summary>The standard error of <see cref="GeometricStandardDeviation"/>, without unit; null for the other models and where there is none.</summary>
    public double? GeometricStandardDeviationStandardError => GeometricStandardDeviation * SlopeStandardError / (Slope * Slope);

    /// <summary>The Sauter mean x(1,2) of the whole model in micrometres (µm), 1/M(-1,3); null where it is zero, the fines having surface without end.</summary>
    public double? SauterMeanMicrometres => Moment(-1) is { } surface && surface > 0 ? 1 / surface : null;

    /// <summary>The moment M(k,3) of the model's mass distribution in micrometres (µm) to the power k; null where it is not finite (docs/science/model-moments.md).</summary>
    /// <param name="k">The order.</param>
    public double? Moment(int k) => ModelMoments.Of(Model, NaturalLogarithm.Of(SizeMicrometres), Slope, k);

    /// <summary>The model's percentage passing a size in micrometres (µm) above 0; from 0 to 100 %.</summary>
    public double PassingPercentAt(double micrometres) =>
        ModelWords.NetOf(Model).Percent(Slope * NaturalLogarithm.Of(micrometres / SizeMicrometres));

    /// <summary>The model's size in micrometres (µm) of which so many percent of the mass is finer; between 0 and 100 %.</summary>
    public double SizeAtPercent(double percent) =>
        SizeMicrometres * Exponential.Of(ModelWords.NetOf(Model).OrdinateOf(percent) / Slope);
}
