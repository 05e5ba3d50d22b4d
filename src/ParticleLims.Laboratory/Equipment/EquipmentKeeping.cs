using System.Security.Cryptography;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Laboratory.Equipment;

/// <summary>What every deed on a piece of equipment leaves with it.</summary>
internal static class EquipmentKeeping
{
    /// <summary>Adds a line to an item's history within a running deed.</summary>
    public static void Tell(DeedScope scope, Guid id, string what, string words) =>
        scope.Data.Add(new EquipmentEvent { Id = scope.NewId(), EquipmentId = id, At = scope.Now, PersonName = scope.By.Name, What = what, Note = words.Trim() });

    /// <summary>Adds a file within a running deed.</summary>
    /// <exception cref="RefusedException">The file is none that is kept.</exception>
    public static EquipmentDocument Keep(DeedScope scope, Guid equipmentId, EquipmentDocumentKind kind, string title, FileGiven file)
    {
        var found = kind == EquipmentDocumentKind.Photograph ? FileKind.OfPhotograph(file.Bytes) : FileKind.Of(file.Bytes);
        var id = scope.NewId();
        var document = new EquipmentDocument
        {
            Id = id, EquipmentId = equipmentId, Kind = kind, Title = title.Trim(), MediaType = found.MediaType, FileName = $"document-{id:N}.{found.Ending}", Length = file.Bytes.Length,
            Sha256 = Convert.ToHexStringLower(SHA256.HashData(file.Bytes)), AddedAt = scope.Now, AddedByName = scope.By.Name,
        };
        scope.Data.Add(document);
        scope.Data.Add(new EquipmentFile { DocumentId = id, Bytes = file.Bytes });
        return document;
    }
}
