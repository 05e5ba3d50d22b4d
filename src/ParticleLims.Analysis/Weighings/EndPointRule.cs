using ParticleLims.Analysis.Quantities;

namespace ParticleLims.Analysis.Weighings;

/// <summary>
/// When sieving has gone on long enough: the last interval changed the residue of a sieve by no more than a share of what lay on it before, or by no more than a mass; or by no more than a share of the whole
/// portion (docs/science/end-point.md). Whichever is stated and met is enough.
/// </summary>
public sealed record EndPointRule
{
    /// <summary>The most change in percent of the residue before the interval, above 0 and at most 100 %; null for none.</summary>
    public decimal? MostChangePercent { get; init; }

    /// <summary>The most change as a mass; null for none.</summary>
    public Mass? MostChange { get; init; }

    /// <summary>The most change in percent of the test portion, above 0 and at most 100 %; null for none.</summary>
    public decimal? MostChangeOfPortionPercent { get; init; }

    /// <summary>A residue of less than so many percent of the test portion has the easement below; null for none.</summary>
    public decimal? SmallResiduePercent { get; init; }

    /// <summary>The most change of a small residue, in percent of the residue before the interval.</summary>
    public decimal? SmallResidueMostChangePercent { get; init; }

    /// <summary>
    /// On a sieve of 200 mm: 5 % of the previous residue or 0.1 g; where less than 5 % of the whole lies on the sieve, 20 %. Source: United States Pharmacopeia chapter 786 and European Pharmacopoeia 2.9.38,
    /// from memory.
    /// </summary>
    public static EndPointRule Pharmacopoeia { get; } = new()
    {
        MostChangePercent = 5m, MostChange = Mass.FromGrams(0.1m), SmallResiduePercent = 5m, SmallResidueMostChangePercent = 20m,
    };

    /// <summary>On a sieve of 76 mm: 10 % of the previous residue; else as on 200 mm. Source: as above, from memory.</summary>
    public static EndPointRule PharmacopoeiaSmallSieve { get; } = Pharmacopoeia with { MostChangePercent = 10m };

    /// <summary>Not more than 0.5 % of the whole passes in one minute. Source: ASTM C136/C136M-14, as quoted in a public check list.</summary>
    public static EndPointRule Aggregate { get; } = new() { MostChangeOfPortionPercent = 0.5m };

    /// <summary>Whether the end point is reached. A residue that grew has changed as well.</summary>
    /// <param name="before">The residue before the interval, not negative.</param>
    /// <param name="after">The residue after it, not negative.</param>
    /// <param name="portion">The test portion, above zero.</param>
    /// <exception cref="ArgumentOutOfRangeException">A mass outside its range.</exception>
    public bool IsReached(Mass before, Mass after, Mass portion)
    {
        if (before < Mass.Zero || after < Mass.Zero || portion <= Mass.Zero)
        {
            throw new ArgumentOutOfRangeException(nameof(before), before, "Residues are not negative, and the test portion is more than nothing.");
        }

        var change = after > before ? after - before : before - after;
        var isSmall = SmallResiduePercent is { } small && IsWithin(after, small, portion) && after < portion;
        return IsWithin(change, MostChangePercent, before)
            || change <= MostChange
            || IsWithin(change, MostChangeOfPortionPercent, portion)
            || (isSmall && IsWithin(change, SmallResidueMostChangePercent, before));
    }

    /// <summary>Exactly, in whole micrograms; nothing is within a share of nothing but nothing.</summary>
    private static bool IsWithin(Mass part, decimal? percent, Mass whole) =>
        percent is { } share && (part == Mass.Zero || (whole > Mass.Zero && Ratio.Hundred * Ratio.Of(part, whole) <= Ratio.FromDecimal(share)));
}
