using System.Collections;
using System.Collections.Concurrent;
using System.Globalization;
using System.Security.Cryptography;
using System.Text.Encodings.Web;
using System.Text.Json;
using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.ChangeTracking;
using Microsoft.EntityFrameworkCore.Metadata;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Record;

/// <summary>A value that the record names but never shows: password and token hashes, stamps.</summary>
[AttributeUsage(AttributeTargets.Property)]
public sealed class SecretAttribute : Attribute;

/// <summary>Old and new values of everything that a deed changed, read from the change tracker so that no feature can forget one.</summary>
internal static class ChangeList
{
    private static readonly JsonSerializerOptions Readable = new() { Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };
    private static readonly ConcurrentDictionary<IProperty, bool> Secrets = new();
    private static readonly HashSet<string> IdentitySecrets = ["PasswordHash", "SecurityStamp", "ConcurrencyStamp"];

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
        foreach (var property in entry.Properties.Where(property => property.Metadata is { Name: not nameof(IVersioned.Version) } && !property.Metadata.IsPrimaryKey()))
        {
            var secret = Secrets.GetOrAdd(property.Metadata, IsSecret);
            var before = entry.State == EntityState.Added ? null : Text(property.OriginalValue, secret);
            var after = entry.State == EntityState.Deleted ? null : Text(property.CurrentValue, secret);
            if ((entry.State == EntityState.Modified && property.IsModified) || (entry.State != EntityState.Modified && before != after))
            {
                values[property.Metadata.Name] = [before, after];
            }
        }

        var key = string.Join('/', entry.Properties.Where(property => property.Metadata.IsPrimaryKey()).Select(property => Text(property.CurrentValue, secret: false)));
        return new Change(entry.Metadata.ClrType.Name, key, entry.State switch { EntityState.Added => "added", EntityState.Deleted => "removed", _ => "changed" }, values);
    }

    private static bool IsSecret(IProperty property) =>
        IdentitySecrets.Contains(property.Name) || property.PropertyInfo?.IsDefined(typeof(SecretAttribute), inherit: true) == true;

    private static string? Text(object? value, bool secret) => value switch
    {
        null => null,
        _ when secret => "(secret)",
        byte[] bytes => $"{bytes.Length} bytes, SHA-256 {Convert.ToHexStringLower(SHA256.HashData(bytes))}",
        DateTimeOffset instant => RecordChain.InstantText(instant),
        string text => text,
        IFormattable formattable => formattable.ToString(null, CultureInfo.InvariantCulture),
        IEnumerable many => string.Join(", ", many.Cast<object?>().Select(one => Text(one, secret: false))),
        _ => value.ToString(),
    };

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
