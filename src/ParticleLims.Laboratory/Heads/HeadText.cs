using System.Globalization;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Laboratory.Heads;

/// <summary>A head as it was read from a file.</summary>
/// <param name="Sequence">The number of the event.</param>
/// <param name="Hash">Its hash, hexadecimal.</param>
/// <param name="SignedText">The lines that the signature is over.</param>
/// <param name="Signature">The signature; null where the file has none.</param>
public sealed record HeadRead(long Sequence, string Hash, string SignedText, byte[]? Signature);

/// <summary>The file of a head: lines of a name and a value, read by people and by <c>verify-record</c>. The last line is the signature over all lines before it, each with its line feed.</summary>
public static class HeadText
{
    /// <summary>The first line, which also keeps the signature from being taken for one over anything else.</summary>
    public const string Title = "Head of a laboratory's record, form 1";

    private const string SignatureName = "signature";

    /// <summary>The lines before the signature.</summary>
    public static string Write(string laboratory, long sequence, string hash, DateTimeOffset eventAt, DateTimeOffset leftAt)
    {
        ArgumentNullException.ThrowIfNull(laboratory);
        return string.Join('\n',
            Title, "laboratory " + string.Concat(laboratory.Select(letter => char.IsControl(letter) ? ' ' : letter)), "event " + sequence.ToString(CultureInfo.InvariantCulture), "hash " + hash,
            "at " + RecordChain.InstantText(eventAt), "left " + RecordChain.InstantText(leftAt)) + "\n";
    }

    /// <summary>The whole file.</summary>
    public static string Sign(string lines, byte[] signature) => $"{lines}{SignatureName} {Convert.ToBase64String(signature)}\n";

    /// <summary>Reads a file; null when it is no head.</summary>
    public static HeadRead? Read(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        var lines = text.ReplaceLineEndings("\n").TrimEnd('\n').Split('\n');
        string? Value(string name) => lines.FirstOrDefault(line => line.StartsWith(name + " ", StringComparison.Ordinal))?[(name.Length + 1)..].Trim();
        if (lines[0].Trim('\uFEFF') != Title || !long.TryParse(Value("event"), NumberStyles.None, CultureInfo.InvariantCulture, out var sequence) || Value("hash") is not { Length: 64 } hash)
        {
            return null;
        }

        var signature = lines[^1].StartsWith(SignatureName + " ", StringComparison.Ordinal) ? new byte[lines[^1].Length] : null;
        return signature is null ? new HeadRead(sequence, hash, text, null)
            : Convert.TryFromBase64String(lines[^1][(SignatureName.Length + 1)..], signature, out var length) ? new HeadRead(sequence, hash, string.Join('\n', lines[..^1]).Trim('\uFEFF') + "\n", signature[..length])
            : null;
    }
}
