using System.Globalization;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Analysis.Sieves;

namespace ParticleLims.Laboratory.Sieves;

/// <summary>What a check with a reference material says of a sieve.</summary>
/// <param name="Passed">False where the sieve is outside what is permitted by more than the expanded uncertainty, or away from its own first checks.</param>
/// <param name="Words">In a sentence.</param>
public sealed record ReferenceVerdict(bool Passed, string Words)
{
    private const int FirstChecks = 3;

    /// <summary>
    /// The verdict. The effective aperture may be as far from nominal as the mean aperture of a new sieve (Y of the edition), and a sieve is failed only where it lies further out by more than
    /// U = 2 u. From the median of its own first three checks it may be as far as twice the combined uncertainty of the two. Common practice, no source.
    /// </summary>
    /// <param name="nominal">The nominal aperture.</param>
    /// <param name="table">The edition that says what Y is.</param>
    /// <param name="found">The effective aperture now.</param>
    /// <param name="earlier">Those of earlier checks, oldest first.</param>
    public static ReferenceVerdict Of(Aperture nominal, ToleranceTable table, EffectiveAperture found, IReadOnlyList<(Aperture Effective, Aperture Uncertainty)> earlier)
    {
        ArgumentNullException.ThrowIfNull(table);
        ArgumentNullException.ThrowIfNull(found);
        ArgumentNullException.ThrowIfNull(earlier);
        var (off, expanded) = (found.Micrometres - (double)nominal.Micrometres, 2 * found.StandardUncertaintyMicrometres);
        var effective = string.Create(CultureInfo.InvariantCulture, $"Effective aperture {found.Micrometres:0.00} µm ± {expanded:0.00} µm (U, k = 2), {Math.Abs(off):0.00} µm {(off < 0 ? "below" : "above")} nominal");
        if (table.Find(nominal)?.MeanMicrometres is { } permitted && Math.Abs(off) - expanded > (double)permitted)
        {
            return new ReferenceVerdict(Passed: false, string.Create(CultureInfo.InvariantCulture, $"{effective}: further than the {permitted} µm that {table.Edition} permits, beyond the uncertainty."));
        }

        return Drift(found, earlier) is { } drift ? new ReferenceVerdict(Passed: false, $"{effective}; {drift}") : new ReferenceVerdict(Passed: true, effective + ".");
    }

    private static string? Drift(EffectiveAperture found, IReadOnlyList<(Aperture Effective, Aperture Uncertainty)> earlier)
    {
        if (earlier.Count == 0)
        {
            return null;
        }

        var first = earlier.Take(FirstChecks).OrderBy(one => one.Effective).ElementAt(Math.Min(earlier.Count, FirstChecks) / 2);
        var (then, uncertainty) = (first.Effective.Nanometres / 1_000.0, first.Uncertainty.Nanometres / 1_000.0);
        var (moved, allowed) = (found.Micrometres - then, 2 * Math.Sqrt((uncertainty * uncertainty) + (found.StandardUncertaintyMicrometres * found.StandardUncertaintyMicrometres)));
        return Math.Abs(moved) > allowed
            ? string.Create(CultureInfo.InvariantCulture, $"it has moved by {moved:+0.00;-0.00} µm from its first checks ({then:0.00} µm), more than the uncertainty of both explains ({allowed:0.00} µm): {(moved > 0 ? "the apertures have widened" : "the apertures have narrowed")}.")
            : null;
    }
}
