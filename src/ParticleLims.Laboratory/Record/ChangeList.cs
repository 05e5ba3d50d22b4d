using System.Text.Encodings.Web;
using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.ChangeTracking;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Record;

/// <summary>Old and new values of everything that a deed changed, read from the change tracker so that no feature can forget one.</summary>
internal static class ChangeList
{
    /// <summary>A row that is new.</summary>
    public const string Added = "added";

    /// <summary>A row that has other values.</summary>
    public const string Changed = "changed";

    /// <summary>A row that is gone.</summary>
    public const string Removed = "removed";

    private static readonly JsonSerializerOptions Readable = new() { Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    /// <summary>The changes as JSON; also counts up the versions of changed rows and refuses deletions.</summary>
    public static string Close(LaboratoryContext data)
    {
        var changes = new List<Change>();
        foreach (var entry in data.ChangeTracker.Entries().Where(entry => entry.State is EntityState.Added or EntityState.Modified or EntityState.Deleted).ToList())
        {
            if (entry.State == EntityState.Deleted && entry.Entity is not IRemovable)
            {
                throw new InvalidOperationException($"{entry.Metadata.ClrType.Name}: nothing is deleted.");
            }

            if (entry.Entity is not IOutsideRecord)
            {
                changes.Add(Describe(entry));
            }

            CountVersion(entry);
        }

        return JsonSerializer.Serialize(changes, Readable);
    }

    private static void CountVersion(EntityEntry entry)
    {
        if (entry is { Entity: IVersioned versioned, State: EntityState.Added or EntityState.Modified })
        {
            entry.Property(nameof(IVersioned.Version)).CurrentValue = versioned.Version + 1;
        }
    }

    private static Change Describe(EntityEntry entry)
    {
        var values = new SortedDictionary<string, string?[]>(StringComparer.Ordinal);
        foreach (var (name, property) in RecordedValues.Of(entry))
        {
            var before = entry.State == EntityState.Added ? null : RecordedValues.Text(property.Metadata, property.OriginalValue);
            var after = entry.State == EntityState.Deleted ? null : RecordedValues.Text(property.Metadata, property.CurrentValue);
            if ((entry.State == EntityState.Modified && property.IsModified) || (entry.State != EntityState.Modified && before != after))
            {
                values[name] = [before, after];
            }
        }

        return new Change(entry.Metadata.ClrType.Name, RecordedValues.KeyOf(entry), entry.State switch { EntityState.Added => Added, EntityState.Deleted => Removed, _ => Changed }, values);
    }

    private sealed record Change(
        [property: System.Text.Json.Serialization.JsonPropertyName("thing")] string Thing,
        [property: System.Text.Json.Serialization.JsonPropertyName("id")] string Id,
        [property: System.Text.Json.Serialization.JsonPropertyName("change")] string Kind,
        [property: System.Text.Json.Serialization.JsonPropertyName("values")] IReadOnlyDictionary<string, string?[]> Values);
}

/// <summary>A row that may really go away, such as the grant of a role; its removal stands in the record.</summary>
public interface IRemovable;

/// <summary>A row that is machinery and not news: idempotency entries, number series, the events themselves.</summary>
public interface IOutsideRecord;
