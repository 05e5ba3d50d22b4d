using ParticleLims.Analysis.Statistics.Arithmetic;

namespace ParticleLims.Analysis.Sampling;

/// <summary>
/// The fundamental error of a size class: how sure can a test portion of this mass be of the share of its coarsest class (docs/science/size-class-sampling.md)? Source: Pitard, Pierre Gy's
/// Sampling Theory and Sampling Practice, 2nd edition (1993), chapter 17, from memory.
/// </summary>
public static class SizeClassError
{
    /// <summary>The relative standard deviation of the class's share, without unit: s² = f ρ / M ((1/a - 2) d³ + Σ a_j d_j³).</summary>
    /// <param name="classes">All size classes with their shares, which sum to 1, and sizes.</param>
    /// <param name="index">The class asked about, from zero; its share is above zero.</param>
    /// <param name="densityGramsPerCubicCentimetre">ρ of the particles in g/cm³.</param>
    /// <param name="portionGrams">M in g.</param>
    /// <param name="shape">f, the volume of a particle over the cube of its size; 0.5 for compact ones.</param>
    /// <exception cref="ArgumentException">No class, shares that do not sum to 1 within 0.0001, or a number out of range.</exception>
    public static double RelativeDeviation(
        IReadOnlyList<SampledClass> classes, int index, double densityGramsPerCubicCentimetre, double portionGrams, double shape = 0.5)
    {
        Given.Enough(classes, 1, nameof(classes));
        ArgumentOutOfRangeException.ThrowIfNegative(index);
        ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual(index, classes.Count);
        Check(classes);
        var mean = 0.0;
        foreach (var one in classes)
        {
            mean += one.Share * Volume(one);
        }

        var asked = classes[index];
        var share = InRange(asked.Share, nameof(index));
        var factor = InRange(shape, nameof(shape)) * InRange(densityGramsPerCubicCentimetre, nameof(densityGramsPerCubicCentimetre)) / InRange(portionGrams, nameof(portionGrams));
        return Math.Sqrt(Math.Max(0, factor * ((((1 / share) - 2) * Volume(asked)) + mean)));
    }

    private static void Check(IReadOnlyList<SampledClass> classes)
    {
        var sum = 0.0;
        foreach (var one in classes)
        {
            InRange(one.SizeMicrometres, nameof(classes));
            sum += one.Share is >= 0 and <= 1 ? one.Share : double.PositiveInfinity;
        }

        if (!(Math.Abs(sum - 1) <= 1e-4))
        {
            throw new ArgumentException("The shares of the classes lie between 0 and 1 and sum to 1.", nameof(classes));
        }
    }

    private static double InRange(double value, string name) => value is >= 1e-12 and <= 1e12
        ? value
        : throw new ArgumentOutOfRangeException(name, value, "A size, mass, density, shape or share asked about lies between 1e-12 and 1e12.");

    /// <summary>The cube of the size in cm³.</summary>
    private static double Volume(SampledClass one)
    {
        var centimetres = one.SizeMicrometres / 10_000;
        return centimetres * centimetres * centimetres;
    }
}
