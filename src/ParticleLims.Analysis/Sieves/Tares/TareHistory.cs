using System.Collections.Immutable;
using ParticleLims.Analysis.Quantities;

namespace ParticleLims.Analysis.Sieves.Tares;

/// <summary>
/// Watches the mass of an empty sieve from weighing to weighing (docs/science/tare-history.md): each weighing against the moving average for changes at once, the average against the first weighings
/// for slow ones. After a finding the watch begins anew. Source: own, on the moving average of NIST/SEMATECH e-Handbook 6.3.2.4; its false alarms and its keenness are shown by simulation.
/// </summary>
public static class TareHistory
{
    /// <summary>All findings, in the order of the weighings.</summary>
    /// <param name="weighings">The empty sieve, each time it was weighed clean, oldest first.</param>
    /// <param name="repeatability">The standard deviation of such a weighing, cleaning included; above zero.</param>
    /// <param name="settings">How keenly to watch; null for the usual way.</param>
    /// <exception cref="ArgumentException">A repeatability that is not above 0 g and at most 1 kg, a weighing beyond ±100 kg, or settings out of range.</exception>
    public static ImmutableArray<TareFinding> Findings(IReadOnlyList<Mass> weighings, Mass repeatability, TareSettings? settings = null)
    {
        ArgumentNullException.ThrowIfNull(weighings);
        if (repeatability.Micrograms is <= 0 or > 1_000_000_000)
        {
            throw new ArgumentOutOfRangeException(nameof(repeatability), repeatability, "The repeatability lies above 0 g and at most at 1 000 g.");
        }

        if (weighings.Any(weighing => weighing.Micrograms is < -100_000_000_000 or > 100_000_000_000))
        {
            throw new ArgumentOutOfRangeException(nameof(weighings), "A sieve weighs at most 100 kg.");
        }

        settings ??= new TareSettings();
        settings.Check(nameof(settings));
        var watch = new TareWatch(settings, repeatability.Micrograms);
        return [.. weighings.Select((weighing, index) => watch.See(index, weighing.Micrograms)).OfType<TareFinding>()];
    }
}
