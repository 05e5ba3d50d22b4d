using System.Globalization;
using ParticleLims.Analysis.ModelFits;

namespace ParticleLims.Pictures.Scales;

/// <summary>
/// The upright scale of the log-normal net: the normal quantile of the passing Q, labelled in percent. A log-normal distribution is a straight
/// line in it over ln x; at its median it is at 50 %.
/// </summary>
public sealed class ProbabilityScale
{
    // The first of them are printed first when room is short.
    private static readonly double[] ByImportance = [50, 10, 90, 1, 99, 0.1, 99.9, 30, 70, 5, 95, 20, 80, 0.01, 99.99, 2, 98, 40, 60, 0.001, 99.999];

    // The log-normal distribution of median 1 µm and slope 1: the logarithm of its size is the normal quantile.
    private static readonly FittedModel Standard = new()
    {
        Model = Model.LogNormal, Method = FitMethod.StraightLine, SizeMicrometres = 1, Slope = 1, Intercept = 0, RSquared = 1, PointsUsed = 0, PointsLeftOut = 0,
    };

    private readonly LinearScale _scale;

    /// <summary>A scale that holds the percentages, given above 0 and below 100 %, with a margin.</summary>
    public ProbabilityScale(IReadOnlyCollection<double> percents, double from, double to)
    {
        ArgumentNullException.ThrowIfNull(percents);
        var heights = percents.Append(10).Append(90).Select(Height).ToList();
        _scale = new LinearScale(heights.Min() - 0.25, heights.Max() + 0.25, from, to);
    }

    /// <summary>The least normal quantile on the scale.</summary>
    public double Lowest => _scale.Lowest;

    /// <summary>The greatest normal quantile on the scale.</summary>
    public double Highest => _scale.Highest;

    /// <summary>The normal quantile of a percentage.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Not above 0 and below 100 %.</exception>
    public static double Height(double percent) => percent is > 0 and < 100
        ? Math.Log(Standard.SizeAtPercent(percent))
        : throw new ArgumentOutOfRangeException(nameof(percent), percent, "Only a percentage above 0 % and below 100 % has a place in the net.");

    /// <summary>Where a percentage stands on the surface.</summary>
    public double Position(double percent) => _scale.Position(Height(percent));

    /// <summary>Where a normal quantile stands on the surface.</summary>
    public double PositionOfHeight(double height) => _scale.Position(height);

    /// <summary>The labelled ticks, no two closer than <paramref name="leastDistance"/>, from the smallest percentage to the largest.</summary>
    public IReadOnlyList<Tick> Ticks(double leastDistance)
    {
        var kept = new List<double>();
        foreach (var percent in ByImportance.Where(IsInside))
        {
            if (kept.TrueForAll(other => Math.Abs(Position(other) - Position(percent)) >= leastDistance))
            {
                kept.Add(percent);
            }
        }

        return [.. kept.Order().Select(percent => new Tick(percent, percent.ToString("0.###", CultureInfo.InvariantCulture)))];
    }

    private bool IsInside(double percent) => Height(percent) >= Lowest && Height(percent) <= Highest;
}
