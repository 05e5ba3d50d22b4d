using System.Buffers;
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

    private const int UsualSize = 4_096;

    // Whole records are hashed one event after another: each thread keeps what it writes with.
    [ThreadStatic]
    private static (ArrayBufferWriter<byte> Bytes, Utf8JsonWriter Json)? kept;

    /// <summary>The hash that the event must carry.</summary>
    public static string HashOf(RecordEvent one)
    {
        ArgumentNullException.ThrowIfNull(one);
        var (bytes, json) = kept ??= NewWriter();
        bytes.ResetWrittenCount();
        json.Reset(bytes);
        json.WriteStartArray();
        WriteMembers(json, one);
        json.WriteEndArray();
        json.Flush();
        Span<byte> hash = stackalloc byte[SHA256.HashSizeInBytes];
        SHA256.HashData(bytes.WrittenSpan, hash);
        return Convert.ToHexStringLower(hash);
    }

    /// <summary>SHA-256 of a text's UTF-8 bytes, hexadecimal.</summary>
    public static string HashOf(string text) => Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(text)));

    /// <summary>An instant as the record writes it: UTC to the microsecond.</summary>
    public static string InstantText(DateTimeOffset instant) => instant.UtcDateTime.ToString("yyyy-MM-dd'T'HH:mm:ss.ffffff'Z'", CultureInfo.InvariantCulture);

    private static (ArrayBufferWriter<byte> Bytes, Utf8JsonWriter Json) NewWriter()
    {
        var bytes = new ArrayBufferWriter<byte>(UsualSize);
        return (bytes, new Utf8JsonWriter(bytes, new JsonWriterOptions { SkipValidation = true }));
    }

    private static void WriteMembers(Utf8JsonWriter json, RecordEvent one)
    {
        json.WriteStringValue(one.Sequence.ToString(CultureInfo.InvariantCulture));
        json.WriteStringValue(InstantText(one.At));
        json.WriteStringValue(one.PersonId?.ToString("D"));
        json.WriteStringValue(one.PersonName);
        json.WriteStringValue(one.Terminal);
        json.WriteStringValue(one.Code);
        json.WriteStringValue(one.SubjectKind);
        json.WriteStringValue(one.SubjectId.ToString("D"));
        json.WriteStringValue(one.SubjectLabel);
        json.WriteStringValue(one.Reason);
        json.WriteStringValue(one.Changes);
        json.WriteStringValue(one.PreviousHash);
    }
}
