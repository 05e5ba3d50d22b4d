using System.Text;
using System.Text.Json;

namespace ParticleLims.Laboratory.Record;

/// <summary>One value that a deed set or changed, in words.</summary>
/// <param name="Name">The value's name: "State reason".</param>
/// <param name="Before">What it was; null where there was nothing.</param>
/// <param name="After">What it is; null where nothing is left.</param>
public sealed record ValueDifference(string Name, string? Before, string? After);

/// <summary>One thing that a deed touched.</summary>
/// <param name="Thing">What kind of thing: "Method version".</param>
/// <param name="Id">Its key.</param>
/// <param name="Change">added, changed or removed.</param>
/// <param name="Values">Its values, in the order of their names.</param>
public sealed record RecordDifference(string Thing, string Id, string Change, IReadOnlyList<ValueDifference> Values)
{
    /// <summary>Reads the changes of an event as the record keeps them, without rows that were only touched and values that stayed what they were.</summary>
    public static IReadOnlyList<RecordDifference> Of(RecordEvent one)
    {
        ArgumentNullException.ThrowIfNull(one);
        using var changes = JsonDocument.Parse(one.Changes);
        return
        [
            .. changes.RootElement.EnumerateArray().Select(change => new RecordDifference(
                Words(change.GetProperty("thing").GetString()!), change.GetProperty("id").GetString()!, change.GetProperty("change").GetString()!,
                [.. change.GetProperty("values").EnumerateObject().Where(value => change.GetProperty("change").GetString() != ChangeList.Changed || IsOther(value)).Select(Value)]))
                .Where(difference => difference.Change != ChangeList.Changed || difference.Values.Count > 0),
        ];
    }

    // A secret without a fingerprint looks the same before and after: that it was written is told.
    private static bool IsOther(JsonProperty value) => value.Value[0].GetString() is var before && (before != value.Value[1].GetString() || before == RecordedValues.Hidden);

    /// <summary>Parts a name of the program into words: <c>StateReason</c> becomes "State reason", <c>EndPoint.MostIntervals</c> "End point most intervals".</summary>
    public static string Words(string name)
    {
        ArgumentNullException.ThrowIfNull(name);
        var words = new StringBuilder(name.Length + 4);
        foreach (var letter in name.Where(letter => letter != '.'))
        {
            var starts = char.IsUpper(letter) && words.Length > 0;
            words.Append(starts ? " " : string.Empty).Append(starts ? char.ToLowerInvariant(letter) : letter);
        }

        return words.ToString();
    }

    private static ValueDifference Value(JsonProperty value)
    {
        var isState = value.Name.EndsWith("State", StringComparison.Ordinal) || value.Name is "Role" or "Conclusion";
        string? Text(int index) => RecordedValues.Shown(value.Value[index].GetString()) is { } text ? isState ? Words(text).ToLowerInvariant() : text : null;
        return new ValueDifference(Words(value.Name), Text(0), Text(1));
    }
}
