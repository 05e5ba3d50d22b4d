using Microsoft.EntityFrameworkCore;
using ParticleLims.Analysis.Sieves;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Sieves;

/// <summary>A table of permissible deviations as it is entered.</summary>
/// <param name="Edition">The document and edition, exactly as the sieves name it.</param>
/// <param name="Source">From which copy, table and page.</param>
/// <param name="Lines">A line for each aperture: nominal, Y, X, Z, the greatest standard deviation, and the least and greatest mean diameter of the wires, in µm; a hyphen where the edition says nothing.</param>
/// <param name="IntermediatePercent">How many apertures may be more than Z above nominal, percent.</param>
public sealed record ToleranceCard(string Edition, string Source, string Lines, decimal IntermediatePercent);

/// <summary>Keeps the tables of permissible deviations by the editions that the laboratory holds.</summary>
public sealed class ToleranceKeeping(WritePath writing, ReadPath reading)
{
    private static readonly DeedKind AddDeed = new("tolerances.add", "Table of permissible deviations entered", Permission.KeepEquipment);

    /// <summary>Enters a table. From now on it judges the sieves that name its edition; earlier verdicts stay as they are.</summary>
    public Task<Guid> AddAsync(Actor actor, ToleranceCard card, string? key, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(AddDeed, actor, key) { Asked = card }, (scope, _) =>
        {
            var (edition, source) = (card.Edition.Trim(), card.Source.Trim());
            if (edition.Length is 0 or > 60 || source.Length is < 5 or > 400)
            {
                throw new RefusedException("tolerance-incomplete", "A table has the name of its edition as the sieves have it (at most 60 characters), and says from which copy, table and page it is (at least five letters).", edition.Length is 0 or > 60 ? "edition" : "source");
            }

            ToleranceEdition.Read(edition, source, card.Lines, card.IntermediatePercent);
            var added = new ToleranceEdition { Id = scope.NewId(), Edition = edition, Source = source, Lines = card.Lines.Trim(), IntermediatePercent = card.IntermediatePercent, AddedAt = scope.Now, AddedByName = scope.By.Name };
            scope.Data.Add(added);
            scope.About(nameof(ToleranceEdition), added.Id, added.Edition);
            return Task.FromResult(added.Id);
        }, cancellation);

    /// <summary>All tables, by edition, the newest of each first.</summary>
    public Task<List<ToleranceEdition>> AllAsync(Actor actor, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.SeeLaboratory, (data, _, token) => data.Set<ToleranceEdition>().OrderBy(one => one.Edition).ThenByDescending(one => one.AddedAt).ToListAsync(token), cancellation);

    /// <summary>The table that judges a sieve.</summary>
    internal static async Task<ToleranceTable> OfAsync(LaboratoryContext data, TestSieve sieve, CancellationToken cancellation) => (await TablesAsync(data, cancellation))(sieve.Standard);

    /// <summary>Which table judges the sieves that name a standard: the laboratory's own of that edition, or else the one that the program ships with for wire cloth or perforated plate.</summary>
    internal static async Task<Func<string, ToleranceTable>> TablesAsync(LaboratoryContext data, CancellationToken cancellation)
    {
        var own = await OwnAsync(data, cancellation);
        return standard => own.GetValueOrDefault(standard) ?? Shipped(standard);
    }

    /// <summary>The laboratory's own tables that count now, by edition.</summary>
    internal static async Task<Dictionary<string, ToleranceTable>> OwnAsync(LaboratoryContext data, CancellationToken cancellation) =>
        (await data.Set<ToleranceEdition>().AsNoTracking().ToListAsync(cancellation)).GroupBy(one => one.Edition).ToDictionary(group => group.Key, group => group.MaxBy(one => one.AddedAt)!.Table, StringComparer.Ordinal);

    /// <summary>The table that the program ships with for sieves that name a standard.</summary>
    public static ToleranceTable Shipped(string standard) =>
        standard.StartsWith("ISO 3310-2", StringComparison.OrdinalIgnoreCase) ? PerforatedPlateTolerances.Table : WireClothTolerances.Table;
}
