using System.Collections.Immutable;
using ParticleLims.Analysis.Quantities;

namespace ParticleLims.Analysis.Sieves;

/// <summary>
/// The permissible deviations of one edition of a standard. Editions differ: a laboratory makes the table of its own from the document that it holds (docs/science/sieve-tolerances.md).
/// </summary>
public sealed record ToleranceTable
{
    private ToleranceTable()
    {
    }

    /// <summary>The document and edition, as <c>ISO 3310-1:2016</c>.</summary>
    public string Edition { get; private init; } = string.Empty;

    /// <summary>Where the numbers come from, for whoever checks them.</summary>
    public string Source { get; private init; } = string.Empty;

    /// <summary>How many apertures may be more than Z above nominal (%): 6 by ISO 3310-1 of 1990 and 2000, 5 by ASTM E11-01.</summary>
    public decimal IntermediatePercent { get; private init; }

    /// <summary>The rows, coarsest first.</summary>
    public ImmutableArray<ToleranceRow> Rows { get; private init; }

    /// <summary>A table from rows in any order.</summary>
    /// <param name="edition">The document and edition.</param>
    /// <param name="source">Where the numbers come from.</param>
    /// <param name="rows">One row for each aperture.</param>
    /// <param name="intermediatePercent">How many apertures may be more than Z above nominal (%), from 0 to 100.</param>
    /// <exception cref="ArgumentException">
    /// No edition, no source, no row, two rows for one aperture, a deviation that is not above zero, wires without a least and a greatest diameter, or a percentage outside 0 to 100.
    /// </exception>
    public static ToleranceTable From(string edition, string source, IEnumerable<ToleranceRow> rows, decimal intermediatePercent = 6m)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(edition);
        ArgumentException.ThrowIfNullOrWhiteSpace(source);
        ImmutableArray<ToleranceRow> sorted = [.. rows.OrderByDescending(row => row.Nominal)];
        if (sorted.IsEmpty || sorted.Zip(sorted.Skip(1)).Any(pair => pair.First.Nominal == pair.Second.Nominal))
        {
            throw new ArgumentException("A table has at least one row, and one row for an aperture.", nameof(rows));
        }

        if (intermediatePercent is < 0m or > 100m)
        {
            throw new ArgumentOutOfRangeException(nameof(intermediatePercent), intermediatePercent, "A percentage lies between 0 and 100.");
        }

        if (sorted.Any(row => row.WireLeastMicrometres is null != row.WireMostMicrometres is null || row.WireLeastMicrometres <= 0m || row.WireLeastMicrometres > row.WireMostMicrometres))
        {
            throw new ArgumentException("The diameter of the wires has a least and a greatest value above 0 µm, or neither.", nameof(rows));
        }

        return sorted.SelectMany(Deviations).Any(deviation => deviation <= 0m)
            ? throw new ArgumentException("A permissible deviation is greater than 0 µm.", nameof(rows))
            : new ToleranceTable { Edition = edition, Source = source, Rows = sorted, IntermediatePercent = intermediatePercent };
    }

    /// <summary>What is permitted for a nominal aperture; null where the table has no row.</summary>
    public ToleranceRow? Find(Aperture nominal) => Rows.FirstOrDefault(row => row.Nominal == nominal);

    private static IEnumerable<decimal?> Deviations(ToleranceRow row) =>
        [row.MeanMicrometres, row.SingleMicrometres, row.SingleBelowMicrometres, row.IntermediateMicrometres, row.DeviationMicrometres];
}
