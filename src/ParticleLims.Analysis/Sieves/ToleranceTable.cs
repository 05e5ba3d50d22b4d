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

    /// <summary>The rows, coarsest first.</summary>
    public ImmutableArray<ToleranceRow> Rows { get; private init; }

    /// <summary>A table from rows in any order.</summary>
    /// <exception cref="ArgumentException">No edition, no source, no row, two rows for one aperture, or a deviation that is not above zero.</exception>
    public static ToleranceTable From(string edition, string source, IEnumerable<ToleranceRow> rows)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(edition);
        ArgumentException.ThrowIfNullOrWhiteSpace(source);
        ImmutableArray<ToleranceRow> sorted = [.. rows.OrderByDescending(row => row.Nominal)];
        if (sorted.IsEmpty || sorted.Zip(sorted.Skip(1)).Any(pair => pair.First.Nominal == pair.Second.Nominal))
        {
            throw new ArgumentException("A table has at least one row, and one row for an aperture.", nameof(rows));
        }

        return sorted.Any(row => row.MeanMicrometres <= 0 || row.SingleMicrometres <= 0 || row.IntermediateMicrometres <= 0 || row.DeviationMicrometres <= 0)
            ? throw new ArgumentException("A permissible deviation is greater than 0 µm.", nameof(rows))
            : new ToleranceTable { Edition = edition, Source = source, Rows = sorted };
    }

    /// <summary>What is permitted for a nominal aperture; null where the table has no row.</summary>
    public ToleranceRow? Find(Aperture nominal) => Rows.FirstOrDefault(row => row.Nominal == nominal);
}
