using ParticleLims.Analysis.Distributions.Functions;
using ParticleLims.Analysis.Statistics.Arithmetic;

namespace ParticleLims.Analysis.Sampling;

/// <summary>
/// The error that the best of all divisions leaves, because a sample holds a limited number of particles (docs/science/fundamental-sampling-error.md): s² = C d³ (1/M - 1/M_L). Source: Gy, as in the
/// worked example of Wills, Mineral Processing Technology (1982), publicly quoted; the term of the lot from memory.
/// </summary>
public static class FundamentalError
{
    /// <summary>The relative standard deviation of the content, a ratio without unit.</summary>
    /// <param name="constant">C in g/cm³.</param>
    /// <param name="topSizeCentimetres">d in cm.</param>
    /// <param name="sampleGrams">M, the mass taken, in g.</param>
    /// <param name="lotGrams">M_L, the mass it is taken from, in g; null for a great one.</param>
    /// <exception cref="ArgumentOutOfRangeException">A number is not between 1e-12 and 1e12, or the sample is heavier than the lot.</exception>
    public static double RelativeDeviation(double constant, double topSizeCentimetres, double sampleGrams, double? lotGrams = null)
    {
        var volume = Cube(Measure(topSizeCentimetres, nameof(topSizeCentimetres)));
        var sample = Measure(sampleGrams, nameof(sampleGrams));
        var ofLot = lotGrams is { } lot ? 1 / Measure(lot, nameof(lotGrams)) : 0;
        return ofLot <= 1 / sample
            ? Math.Sqrt(Measure(constant, nameof(constant)) * volume * ((1 / sample) - ofLot))
            : throw new ArgumentOutOfRangeException(nameof(sampleGrams), sampleGrams, "A sample is not heavier than the lot it is taken from.");
    }

    /// <summary>The relative standard deviation after several divisions, the root of the sum of their squares, without unit.</summary>
    /// <param name="stages">Each with its constant (g/cm³), top size (cm), sample (g) and the mass it is taken from (g).</param>
    /// <exception cref="ArgumentException">No stage, or a number out of range.</exception>
    public static double RelativeDeviation(IReadOnlyList<DivisionStage> stages)
    {
        Given.Enough(stages, 1, nameof(stages));
        var sum = 0.0;
        foreach (var stage in stages)
        {
            var one = RelativeDeviation(stage.Constant, stage.TopSizeCentimetres, stage.SampleGrams, stage.LotGrams);
            sum += one * one;
        }

        return Math.Sqrt(sum);
    }

    /// <summary>The smallest sample in grams that keeps the relative error, M = C d³ / s² times stages and safety factor.</summary>
    /// <param name="constant">C in g/cm³.</param>
    /// <param name="topSizeCentimetres">d in cm.</param>
    /// <param name="relativeError">The error not to be passed, as 0.02 for 2 %.</param>
    /// <param name="confidence">With this probability, 0.01 or more and below 1: s is the error over the normal quantile, 1.96 for 0.95.</param>
    /// <param name="stages">How many divisions share the error, 1 to 100.</param>
    /// <param name="safetyFactor">1 to a million.</param>
    /// <exception cref="ArgumentOutOfRangeException">A number out of range.</exception>
    public static double SmallestSampleGrams(double constant, double topSizeCentimetres, double relativeError, double confidence = 0.95, int stages = 1, double safetyFactor = 1)
    {
        if (confidence is not (>= 0.01 and < 1))
        {
            throw new ArgumentOutOfRangeException(nameof(confidence), confidence, "The confidence lies between 0.01 and 1.");
        }

        if (stages is < 1 or > 100)
        {
            throw new ArgumentOutOfRangeException(nameof(stages), stages, "There are 1 to 100 stages.");
        }

        if (safetyFactor is not (>= 1 and <= 1e6))
        {
            throw new ArgumentOutOfRangeException(nameof(safetyFactor), safetyFactor, "The safety factor is 1 or more, and at most a million.");
        }

        var z = NormalDistribution.Quantile((1 + confidence) / 2, (1 - confidence) / 2);
        var s = Measure(relativeError, nameof(relativeError)) / z;
        return Measure(constant, nameof(constant)) * Cube(Measure(topSizeCentimetres, nameof(topSizeCentimetres))) / (s * s) * stages * safetyFactor;
    }

    /// <summary>A size, mass or constant that samples have, so that no cube of it overflows.</summary>
    private static double Measure(double value, string name) => value is >= 1e-12 and <= 1e12
        ? value
        : throw new ArgumentOutOfRangeException(name, value, "The value lies between 1e-12 and 1e12.");

    private static double Cube(double size) => size * size * size;
}
