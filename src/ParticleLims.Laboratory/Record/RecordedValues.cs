using System.Collections;
using System.Collections.Concurrent;
using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using Microsoft.EntityFrameworkCore.ChangeTracking;
using Microsoft.EntityFrameworkCore.Metadata;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Record;

/// <summary>A value that the record names but never shows: password and token hashes, stamps. A fingerprint tells whether it was exchanged.</summary>
[AttributeUsage(AttributeTargets.Property)]
public sealed class SecretAttribute : Attribute
{
    /// <summary>Whether it is so short that a fingerprint would give it away while it is good for something.</summary>
    public bool Guessable { get; init; }
}

/// <summary>The values of a row as the record writes them, in one place for whoever writes and whoever compares.</summary>
internal static class RecordedValues
{
    /// <summary>A secret of which the record keeps no fingerprint: a guessable one, and every one from before fingerprints were kept.</summary>
    public const string Hidden = "(secret)";

    private const string Fingerprint = "(secret ";
    private const int FingerprintLetters = 32;
    private static readonly ConcurrentDictionary<IProperty, SecretKind> Kinds = new();
    private static readonly HashSet<string> IdentitySecrets = ["PasswordHash", "SecurityStamp", "ConcurrencyStamp"];

    private enum SecretKind
    {
        None,
        Guessable,
        Fingerprinted,
    }

    /// <summary>The recorded values of a row by name: all but its key and its version. A part of a row, such as a method's end point, has its name before a point.</summary>
    public static IEnumerable<(string Name, PropertyEntry Value)> Of(EntityEntry entry) => Of(entry.Properties, entry.ComplexProperties, string.Empty)
        .Where(value => value.Entry.Metadata.Name != nameof(IVersioned.Version) && !value.Entry.Metadata.IsPrimaryKey());

    /// <summary>The key of a row.</summary>
    public static string KeyOf(EntityEntry entry) => string.Join('/', entry.Properties.Where(property => property.Metadata.IsPrimaryKey()).Select(property => Plain(property.CurrentValue)));

    /// <summary>The rows that the program itself puts into a new table: thing, key and values, as the record would write them.</summary>
    public static IEnumerable<(string Thing, string Key, Dictionary<string, string?> Values)> Shipped(IModel model) =>
        from type in model.GetEntityTypes()
        from row in type.GetSeedData()
        let key = type.FindPrimaryKey()!.Properties
        select (type.ClrType.Name, string.Join('/', key.Select(property => Plain(row[property.Name]))), type.GetProperties()
            .Where(property => property.Name != nameof(IVersioned.Version) && !key.Contains(property) && row.ContainsKey(property.Name))
            .ToDictionary(property => property.Name, property => Text(property, row[property.Name]), StringComparer.Ordinal));

    /// <summary>A value as text; a secret by its fingerprint.</summary>
    public static string? Text(IProperty property, object? value) => (value, Kinds.GetOrAdd(property, KindOf)) switch
    {
        (null, _) => null,
        (_, SecretKind.Guessable) => Hidden,
        (_, SecretKind.Fingerprinted) => string.Concat(Fingerprint, Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(Plain(value)!))).AsSpan(0, FingerprintLetters), ")"),
        _ => Plain(value),
    };

    /// <summary>A recorded text as people see it: no fingerprints.</summary>
    public static string? Shown(string? recorded) => recorded?.StartsWith(Fingerprint, StringComparison.Ordinal) == true ? Hidden : recorded;

    private static IEnumerable<(string Name, PropertyEntry Entry)> Of(IEnumerable<PropertyEntry> properties, IEnumerable<ComplexPropertyEntry> parts, string before) => properties
        .Select(property => (before + property.Metadata.Name, property))
        .Concat(parts.SelectMany(part => Of(part.Properties, part.ComplexProperties, $"{before}{part.Metadata.Name}.")));

    private static SecretKind KindOf(IProperty property) =>
        property.PropertyInfo?.GetCustomAttributes(typeof(SecretAttribute), inherit: true) is [SecretAttribute secret, ..] ? secret.Guessable ? SecretKind.Guessable : SecretKind.Fingerprinted
        : IdentitySecrets.Contains(property.Name) ? SecretKind.Fingerprinted
        : SecretKind.None;

    private static string? Plain(object? value) => value switch
    {
        null => null,
        byte[] bytes => $"{bytes.Length} bytes, SHA-256 {Convert.ToHexStringLower(SHA256.HashData(bytes))}",
        DateTimeOffset instant => RecordChain.InstantText(instant),
        string text => text,
        IFormattable formattable => formattable.ToString(null, CultureInfo.InvariantCulture),
        IEnumerable many => string.Join(", ", many.Cast<object?>().Select(Plain)),
        _ => value.ToString(),
    };
}
