using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json;

namespace ParticleLims.Laboratory.Record;

/// <summary>The hash chain of the record: SHA-256 (FIPS 180-4) over a JSON array of an event's members in fixed order, the previous hash last.</summary>
public static class RecordChain
{
    /// <summary>What the first event points at.</summary>
    public const string Origin = "0000000000000000000000000000000000000000000000000000000000000000";

    /// <summary>The hash that the event must carry.</summary>
    public static string HashOf(RecordEvent one)
    {
        ArgumentNullException.ThrowIfNull(one);
        string?[] members =
        [
            one.Sequence.ToString(CultureInfo.InvariantCulture), InstantText(one.At), one.PersonId?.ToString("D"), one.PersonName, one.Terminal, one.Code,
            one.SubjectKind, one.SubjectId.ToString("D"), one.SubjectLabel, one.Reason, one.Changes, one.PreviousHash,
        ];
        return Convert.ToHexStringLower(SHA256.HashData(JsonSerializer.SerializeToUtf8Bytes(members)));
    }

    /// <summary>SHA-256 of a text's UTF-8 bytes, hexadecimal.</summary>
    public static string HashOf(string text) => Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(text)));

    /// <summary>An instant as the record writes it: UTC to the microsecond.</summary>
    public static string InstantText(DateTimeOffset instant) => instant.UtcDateTime.ToString("yyyy-MM-dd'T'HH:mm:ss.ffffff'Z'", CultureInfo.InvariantCulture);
}
