using System.Text.Json.Serialization;
using ParticleLims.Analysis.Distributions;
using ParticleLims.Analysis.ModelFits;

namespace ParticleLims.Web.Evaluations;

/// <summary>A fitted model. Its specific surface is that of the whole model, also below the finest aperture.</summary>
public sealed record ModelAnswer(
    Model Model, FitMethod Method, ModelParameters Parameters, ModelParameters? StandardErrors, double? Covariance, [property: JsonPropertyName("rSquared")] double RSquared, double? ReducedChiSquare,
    double? Aicc, int PointsUsed, int PointsLeftOut, string? Caution, IReadOnlyList<ResidualAnswer> Residuals, double? SauterMeanMicrometres, double? SpecificSurfaceSquareMetresPerGram,
    double? BelowFinestPercent, double? AboveCoarsestPercent)
{
    /// <summary>Says a fit in the words of the interface.</summary>
    public static ModelAnswer Of(FittedModel model, DistributionSummary? summary)
    {
        ArgumentNullException.ThrowIfNull(model);
        return new ModelAnswer(
            model.Model, model.Method, ModelParameters.Of(model.Model, model.SizeMicrometres, Shape(model)),
            model is { SizeStandardError: { } size, SlopeStandardError: { } slope } ? ModelParameters.Of(model.Model, size, model.GeometricStandardDeviationStandardError ?? slope) : null,
            CovarianceOf(model), model.RSquared, model.ReducedChiSquare, model.Aicc, model.PointsUsed, model.PointsLeftOut, model.Caution,
            [.. model.Residuals.Select(residual => new ResidualAnswer(residual.Aperture.Micrometres, residual.PassingPercent, residual.Minimised))],
            model.SauterMeanMicrometres, summary?.MassSpecificSurfaceOf(model.SauterMeanMicrometres), model.ShareBelowPercent, model.ShareAbovePercent);
    }

    private static double Shape(FittedModel model) => model.GeometricStandardDeviation ?? model.Slope;

    /// <summary>Of the two parameters as they are told: the geometric standard deviation falls by sg/slope² as the slope rises.</summary>
    private static double? CovarianceOf(FittedModel model) =>
        model.GeometricStandardDeviation is { } deviation ? -model.SizeSlopeCovariance * deviation / (model.Slope * model.Slope) : model.SizeSlopeCovariance;
}

/// <summary>The two parameters of a model, or their standard errors; the others are absent.</summary>
public sealed record ModelParameters
{
    /// <summary>Rosin-Rammler: x' in micrometres.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public double? SizeMicrometres { get; init; }

    /// <summary>Rosin-Rammler: n.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public double? Slope { get; init; }

    /// <summary>Log-normal: the median in micrometres.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public double? MedianMicrometres { get; init; }

    /// <summary>Log-normal: the geometric standard deviation.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public double? GeometricStandardDeviation { get; init; }

    /// <summary>Gates-Gaudin-Schuhmann: the top size in micrometres.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public double? TopSizeMicrometres { get; init; }

    /// <summary>Gates-Gaudin-Schuhmann: the exponent.</summary>
    [JsonIgnore(Condition = JsonIgnoreCondition.WhenWritingNull)]
    public double? Exponent { get; init; }

    internal static ModelParameters Of(Model model, double position, double shape) => model switch
    {
        Model.RosinRammler => new ModelParameters { SizeMicrometres = position, Slope = shape },
        Model.LogNormal => new ModelParameters { MedianMicrometres = position, GeometricStandardDeviation = shape },
        Model.GatesGaudinSchuhmann => new ModelParameters { TopSizeMicrometres = position, Exponent = shape },
        _ => throw new ArgumentOutOfRangeException(nameof(model), model, "Not a model."),
    };
}

/// <summary>How far a point lies from the model: in percent passing, and in what the fit made small.</summary>
public sealed record ResidualAnswer(decimal ApertureMicrometres, double PassingPercent, double Minimised);
