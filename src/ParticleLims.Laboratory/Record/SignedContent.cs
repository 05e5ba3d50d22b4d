using System.Text.Json;
using ParticleLims.Laboratory.Storage;

namespace ParticleLims.Laboratory.Record;

/// <summary>A kind of thing that is signed: tells what the same signature would bind now. Implemented by each feature that signs.</summary>
public interface ISignedThing
{
    /// <summary>
    /// The content as it is now, made in the same way as the signed one; what may rightly change after the signature stays as it was signed. Null where the
    /// signature is of another kind; empty where what was signed is gone.
    /// </summary>
    Task<string?> NowAsync(LaboratoryContext data, Signature signature, CancellationToken cancellation);
}

/// <summary>Compares what was signed with what is now.</summary>
public static class SignedContent
{
    /// <summary>What is said of a signature whose content is not any more what was signed.</summary>
    public const string ChangedWords = "changed since signed";

    /// <summary>
    /// Whether everything that was signed is still so. A later version of the program may add facts that were not signed; numbers count by their value, because
    /// the databases keep no trailing zeros; the order of a list says nothing.
    /// </summary>
    public static bool IsSame(string then, string now)
    {
        if (then == now)
        {
            return true;
        }

        try
        {
            using var before = JsonDocument.Parse(then);
            using var after = JsonDocument.Parse(now);
            return IsSame(before.RootElement, after.RootElement);
        }
        catch (JsonException)
        {
            return false; // Plain words, and they differ.
        }
    }

    /// <summary>Whether a signature still holds: its hash is that of its content, and the content is as it is now. Null where the kind cannot be compared.</summary>
    internal static async Task<bool?> IsUnchangedAsync(LaboratoryContext data, Signature signature, IEnumerable<ISignedThing> things, CancellationToken cancellation)
    {
        if (RecordChain.HashOf(signature.Content) != signature.ContentHash)
        {
            return false;
        }

        foreach (var thing in things)
        {
            if (await thing.NowAsync(data, signature, cancellation) is { } now)
            {
                return IsSame(signature.Content, now);
            }
        }

        return null;
    }

    private static bool IsSame(JsonElement before, JsonElement after) => before.ValueKind switch
    {
        _ when before.ValueKind != after.ValueKind => false,
        JsonValueKind.Object => before.EnumerateObject().All(one => after.TryGetProperty(one.Name, out var other) && IsSame(one.Value, other)),
        JsonValueKind.Array => before.GetArrayLength() == after.GetArrayLength() && Pair(before, after),
        JsonValueKind.Number => before.TryGetDecimal(out var first) && after.TryGetDecimal(out var second) ? first == second : before.GetRawText() == after.GetRawText(),
        JsonValueKind.String => before.GetString() == after.GetString(),
        _ => true,
    };

    private static bool Pair(JsonElement before, JsonElement after)
    {
        var left = after.EnumerateArray().ToList();
        foreach (var one in before.EnumerateArray())
        {
            var at = left.FindIndex(other => IsSame(one, other));
            if (at < 0)
            {
                return false;
            }

            left.RemoveAt(at);
        }

        return true;
    }
}
