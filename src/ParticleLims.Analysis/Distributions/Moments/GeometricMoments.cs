using ParticleLims.Analysis.Distributions.Functions;

namespace ParticleLims.Analysis.Distributions.Moments;

/// <summary>
/// Geometric mean and standard deviation of the mass between the finest and the coarsest aperture: mean and standard deviation of ln x with q3*(ln x) constant
/// in each class (docs/science/geometric-mean.md).
/// </summary>
public sealed record GeometricMoments
{
    /// <summary>The geometric mean in micrometres (µm).</summary>
    public required double MeanMicrometres { get; init; }

    /// <summary>The geometric standard deviation, without unit; at least 1.</summary>
    public required double StandardDeviation { get; init; }

    /// <summary>Null where no mass lies between two apertures.</summary>
    internal static GeometricMoments? Of(IReadOnlyList<SizeClass> classes)
    {
        var closed = classes.Where(one => one.Bounds is not null && one.Percent.Sign > 0).Select(Logarithms).ToList();
        if (closed.Count == 0)
        {
            return null;
        }

        double whole = 0, mean = 0, variance = 0;
        foreach (var (share, middle, _) in closed)
        {
            whole += share;
            mean += share * middle;
        }

        mean /= whole;
        foreach (var (share, middle, width) in closed)
        {
            variance += share / whole * (((middle - mean) * (middle - mean)) + (width * width / 12));
        }

        return new GeometricMoments { MeanMicrometres = Exponential.Of(mean), StandardDeviation = Exponential.Of(Math.Sqrt(variance)) };
    }

    private static (double Share, double Middle, double Width) Logarithms(SizeClass one)
    {
        var (from, to) = one.Bounds.GetValueOrDefault();
        var width = NaturalLogarithm.OfOnePlus((to - from) / from);
        return (one.Share, NaturalLogarithm.Of(from) + (width / 2), width);
    }
}
