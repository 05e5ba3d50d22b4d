using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Equipment;
using ParticleLims.Laboratory.Record;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Balances;

/// <summary>Keeps the formats by which the lines of balances are read.</summary>
public sealed class ReadingFormatKeeping(WritePath writing, ReadPath reading, IReadingFormatCheck check)
{
    private static readonly DeedKind AddDeed = new("reading-formats.add", "Reading format added", Permission.KeepReadingFormats);
    private static readonly DeedKind ChangeDeed = new("reading-formats.change", "Reading format changed", Permission.KeepReadingFormats, ReasonRequired: true);
    private static readonly DeedKind RemoveDeed = new("reading-formats.remove", "Reading format removed", Permission.KeepReadingFormats, ReasonRequired: true);

    /// <summary>Adds a format.</summary>
    public Task<Guid> AddAsync(Actor actor, ReadingFormatCard card, string? key, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(AddDeed, actor, key) { Asked = card }, async (scope, token) =>
        {
            card.Check(check);
            var name = card.Name.Trim();
            if (await scope.Data.ReadingFormats.AnyAsync(format => format.Name == name, token))
            {
                throw new RefusedException("format-name-used", $"There is a reading format “{name}” already.", "name");
            }

            var added = new ReadingFormat { Id = scope.NewId(), Name = name, Pattern = card.Pattern, StableMarks = card.StableMarks, UnstableMarks = card.UnstableMarks, OverloadMarks = card.OverloadMarks, UnderloadMarks = card.UnderloadMarks, Units = card.Units };
            added.Take(card);
            scope.Data.Add(added);
            scope.About(nameof(ReadingFormat), added.Id, added.Name);
            return added.Id;
        }, cancellation);

    /// <summary>Changes a format; its name stays, because balances name it. Balances that use it are read by the changed one within seconds.</summary>
    public Task<bool> ChangeAsync(Actor actor, Guid id, ReadingFormatCard card, string reason, long version, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(ChangeDeed, actor, Reason: reason), async (scope, token) =>
        {
            var format = await FindAsync(scope, id, version, token);
            var kept = card with { Name = format.Name };
            kept.Check(check);
            format.Take(kept);
            return true;
        }, cancellation);

    /// <summary>Removes a format that no balance uses.</summary>
    public Task<bool> RemoveAsync(Actor actor, Guid id, string reason, long version, CancellationToken cancellation) =>
        writing.CarryOutAsync(new Deed(RemoveDeed, actor, Reason: reason), async (scope, token) =>
        {
            var format = await FindAsync(scope, id, version, token);
            var users = await scope.Data.Balances.Where(balance => balance.ReadingFormat == format.Name && balance.State != EquipmentState.Scrapped).OrderBy(balance => balance.Name).Select(balance => balance.Name).ToListAsync(token);
            if (users.Count > 0)
            {
                throw new RefusedException("format-in-use", $"The lines of {string.Join(", ", users)} are read by this format. Give them another one first.");
            }

            scope.Data.Remove(format);
            return true;
        }, cancellation);

    /// <summary>All formats by name.</summary>
    public Task<List<ReadingFormat>> AllAsync(Actor actor, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.KeepReadingFormats, (data, _, token) => ListAsync(data, token), cancellation);

    /// <summary>All formats, for reading the lines. Asked by the program itself.</summary>
    public Task<List<ReadingFormat>> ForReadingAsync(CancellationToken cancellation) =>
        reading.ReadAsync(Actor.Program, Permission.ActAsProgram, (data, _, token) => ListAsync(data, token), cancellation);

    private static Task<List<ReadingFormat>> ListAsync(LaboratoryContext data, CancellationToken cancellation) =>
        data.ReadingFormats.OrderBy(format => format.Name).ToListAsync(cancellation);

    private static async Task<ReadingFormat> FindAsync(DeedScope scope, Guid id, long version, CancellationToken cancellation)
    {
        var format = await scope.FindAsync<ReadingFormat>(id, "reading format", cancellation);
        DeedScope.RequireVersion(format, version, $"The reading format “{format.Name}”");
        scope.About(nameof(ReadingFormat), format.Id, format.Name);
        return format;
    }
}
