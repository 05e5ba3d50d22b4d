using ParticleLims.Analysis.Quantities;

namespace ParticleLims.Instruments.Stability;

/// <summary>When a reading may be taken as a weighing. The values are the laboratory's choice, not a standard's.</summary>
public sealed record StableReadingRules
{
    /// <summary>How long the balance must have called every reading stable.</summary>
    public TimeSpan HoldFor { get; init; } = TimeSpan.FromSeconds(1.5);

    /// <summary>How far the readings held may lie apart; null for two steps of the last digit shown.</summary>
    public Mass? Spread { get; init; }

    /// <summary>The longest gap between two readings; after a longer one the hold begins anew.</summary>
    public TimeSpan LongestGap { get; init; } = TimeSpan.FromSeconds(1);

    /// <summary>How long a line counts that the balance sent alone, at the press of its print key: nothing follows it that could confirm it.</summary>
    public TimeSpan PrintLasts { get; init; } = TimeSpan.FromSeconds(20);

    /// <summary>
    /// Whether the pan must be seen near zero, stable, between two weighings; then a pan near zero is itself never taken.
    /// A balance that only prints is not seen between: there a print that lies further than <see cref="NearZero"/> from the last weighing is another load.
    /// </summary>
    public bool PanMustReturnToZero { get; init; }

    /// <summary>How far from zero still counts as an empty pan.</summary>
    public Mass NearZero { get; init; } = Mass.FromMicrograms(50_000);

    /// <summary>What is wrong with these rules, in words; empty when they can be used.</summary>
    public IReadOnlyList<string> Problems()
    {
        List<string> problems = [];
        if (HoldFor < TimeSpan.Zero)
        {
            problems.Add("The time to hold is not negative.");
        }

        if (LongestGap <= TimeSpan.Zero || PrintLasts <= TimeSpan.Zero)
        {
            problems.Add("The longest gap and the life of a print are longer than nothing.");
        }

        if (NearZero < Mass.Zero || Spread < Mass.Zero)
        {
            problems.Add("The spread and the bound of an empty pan are not negative.");
        }

        return problems;
    }
}
