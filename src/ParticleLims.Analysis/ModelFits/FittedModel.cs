using ParticleLims.Analysis.Distributions;

namespace ParticleLims.Analysis.ModelFits;

/// <summary>A model laid through the measured points (not through the curve that was made monotone).</summary>
public sealed record FittedModel
{
    /// <summary>Which distribution.</summary>
    public required Model Model { get; init; }

    /// <summary>How it was fitted.</summary>
    public required FitMethod Method { get; init; }

    /// <summary>The position in micrometres (µm). Rosin-Rammler: x', where R = 1/e = 36.8 %.</summary>
    public required double SizeMicrometres { get; init; }

    /// <summary>The shape without unit. Rosin-Rammler: the slope n; the larger, the narrower.</summary>
    public required double Slope { get; init; }

    /// <summary>The ordinate of the fitted line at ln(1 µm) = 0, in its own net. Rosin-Rammler: -n ln x'.</summary>
    public required double Intercept { get; init; }

    /// <summary>The standard error of the position in micrometres (µm); null with two points.</summary>
    public double? SizeStandardError { get; init; }

    /// <summary>The standard error of the shape, without unit; null with two points.</summary>
    public double? SlopeStandardError { get; init; }

    /// <summary>The square of the correlation coefficient in the net, from 0 to 1.</summary>
    public required double RSquared { get; init; }

    /// <summary>How many points took part.</summary>
    public required int PointsUsed { get; init; }

    /// <summary>How many were left out because they lie at 0 or 100 %.</summary>
    public required int PointsLeftOut { get; init; }

    /// <summary>Why this fit should not be trusted, in words; null where nothing speaks against it.</summary>
    public string? Caution { get; init; }

    /// <summary>The model's percentage passing a size in micrometres (µm) above 0; from 0 to 100 %.</summary>
    public double PassingPercentAt(double micrometres) =>
        Net.RosinRammler.Percent(Slope * NaturalLogarithm.Of(micrometres / SizeMicrometres));

    /// <summary>The model's size in micrometres (µm) of which so many percent of the mass is finer; between 0 and 100 %.</summary>
    public double SizeAtPercent(double percent) =>
        SizeMicrometres * Exponential.Of(NaturalLogarithm.Of(-NaturalLogarithm.OfOnePlus(-percent / 100)) / Slope);
}
