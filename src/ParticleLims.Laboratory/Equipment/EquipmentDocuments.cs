using Microsoft.EntityFrameworkCore;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Laboratory.Equipment;

/// <summary>A document with its bytes.</summary>
public sealed record OpenedDocument(EquipmentDocument Document, byte[] Bytes);

/// <summary>Files about a piece of equipment: certificates, photographs.</summary>
public sealed class EquipmentDocuments(WritePath writing, ReadPath reading)
{
    private static readonly DeedKind AddDeed = new("equipment.add-document", "Document added", Permission.KeepEquipment);

    /// <summary>Keeps a file about a sieve, a balance or a sieving unit.</summary>
    /// <typeparam name="T">Which of them.</typeparam>
    public Task<Guid> AddAsync<T>(Actor actor, Guid equipmentId, EquipmentDocumentKind kind, string title, FileGiven file, string? key, CancellationToken cancellation)
        where T : class, IEquipment =>
        writing.CarryOutAsync(new Deed(AddDeed, actor, key) { Asked = new { equipmentId, kind, title } }, async (scope, token) =>
        {
            var item = await scope.FindAsync<T>(equipmentId, "piece of equipment", token);
            scope.About(typeof(T).Name, item.Id, item.Label);
            if (title.Trim().Length < 3)
            {
                throw new RefusedException("title-missing", "Say what the document is: its number, or what the picture shows.", "title");
            }

            var document = EquipmentKeeping.Keep(scope, item.Id, kind, title, file);
            EquipmentKeeping.Tell(scope, item.Id, AddDeed.Words, $"{kind.Words()}: {document.Title}");
            return document.Id;
        }, cancellation);

    /// <summary>The documents of a piece of equipment, newest first.</summary>
    public Task<List<EquipmentDocument>> OfAsync(Actor actor, Guid equipmentId, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.SeeLaboratory, (data, _, token) =>
            data.EquipmentDocuments.Where(document => document.EquipmentId == equipmentId).OrderByDescending(document => document.AddedAt).ToListAsync(token), cancellation);

    /// <summary>A document with its bytes; null when there is none.</summary>
    public Task<OpenedDocument?> OpenAsync(Actor actor, Guid id, CancellationToken cancellation) =>
        reading.ReadAsync(actor, Permission.SeeLaboratory, async (data, _, token) =>
            await data.EquipmentDocuments.FirstOrDefaultAsync(document => document.Id == id, token) is { } document
                ? new OpenedDocument(document, (await data.Set<EquipmentFile>().SingleAsync(file => file.DocumentId == id, token)).Bytes)
                : null, cancellation);
}
