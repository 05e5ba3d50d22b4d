using System.Globalization;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Analysis.Statistics.Summaries;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Laboratory.Sieves;

/// <summary>One sieving of a reference material: the sieve empty, with the material, and after sieving.</summary>
public sealed record ReferenceSieving(Mass Empty, Mass Loaded, Mass After)
{
    /// <summary>What passed, in %.</summary>
    public double PassingPercent => 100.0 * (Loaded - After).Micrograms / (Loaded - Empty).Micrograms;

    /// <summary>Refuses masses that cannot be right.</summary>
    /// <exception cref="RefusedException">Says what is wrong.</exception>
    public void Check()
    {
        if (Empty <= Mass.Zero || Loaded <= Empty || After < Empty || After > Loaded)
        {
            throw new RefusedException("reference-masses", $"Empty {Empty}, loaded {Loaded}, after {After}: the loaded sieve weighs more than the empty one, and the mass after sieving lies between them. Read the displays again.", "sievings");
        }
    }

    /// <summary>The mean passing of one to ten sievings and its standard uncertainty, in %: from their scatter where there are two or more, and never below that of the weighings.</summary>
    /// <param name="sievings">The sievings.</param>
    /// <param name="weighing">The standard uncertainty of one weighing.</param>
    public static (double Passing, double Uncertainty) Mean(IReadOnlyList<ReferenceSieving> sievings, Mass weighing)
    {
        ArgumentNullException.ThrowIfNull(sievings);
        var passing = sievings.Select(one => one.PassingPercent).ToList();

        // Passing is (b - a)/(b - t); three independent weighings of the same uncertainty (JCGM 100:2008, 5.1.2).
        var ofWeighings = sievings.Select(one =>
        {
            var (portion, share) = ((double)(one.Loaded - one.Empty).Micrograms, one.PassingPercent / 100);
            return 100 * weighing.Micrograms / portion * Math.Sqrt(1 + (share * share) + ((1 - share) * (1 - share)));
        }).Average() / Math.Sqrt(passing.Count);
        if (passing.Count < 2)
        {
            return (passing[0], ofWeighings);
        }

        var summary = SampleSummary.Of(passing);
        return (summary.Mean, Math.Max(ofWeighings, summary.StandardDeviation!.Value / Math.Sqrt(passing.Count)));
    }

    /// <summary>The line that is kept.</summary>
    public override string ToString() => string.Create(CultureInfo.InvariantCulture, $"{Empty.Micrograms} {Loaded.Micrograms} {After.Micrograms}");
}
