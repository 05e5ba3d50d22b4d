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
        return Read(one, thing => Words(thing.Name), (_, value) => Value(value));
    }

    // A secret without a fingerprint looks the same before and after: that it was written is told.
    private static bool IsOther(JsonProperty value) => value.Value[0].GetString() is var before && (before != value.Value[1].GetString() || before == RecordedValues.Hidden);

    /// <summary>The same for a reader: names and values in words, instants in the laboratory's time zone, keys by what they are the keys of.</summary>
    public static IReadOnlyList<RecordDifference> InWords(RecordEvent one, RecordReader reader)
    {
        ArgumentNullException.ThrowIfNull(one);
        ArgumentNullException.ThrowIfNull(reader);
        return Read(one, thing => RecordedWords.Thing(thing.Name) + (RecordedWords.Which(thing.Key) is { } which ? $" {which}" : string.Empty), (thing, value) =>
        {
            string? Text(int index) => RecordedValues.Shown(value.Value[index].GetString()) is { } text ? RecordedWords.Text(thing, value.Name, text, reader) : null;
            return new ValueDifference(RecordedWords.Name(thing, value.Name), Text(0), Text(1));
        });
    }

    /// <summary>The keys that stand in the values of an event.</summary>
    internal static IEnumerable<Guid> KeysIn(RecordEvent one)
    {
        using var changes = JsonDocument.Parse(one.Changes);
        return
        [
            .. from change in changes.RootElement.EnumerateArray()
               from value in change.GetProperty("values").EnumerateObject()
               from text in value.Value.EnumerateArray()
               let id = Guid.TryParse(text.GetString(), out var key) ? key : Guid.Empty
               where id != Guid.Empty
               select id,
        ];
    }

    /// <summary>Parts a name of the program into words: <c>StateReason</c> becomes "State reason", <c>EndPoint.MostIntervals</c> "End point most intervals".</summary>
    public static string Words(string name)
    {
        ArgumentNullException.ThrowIfNull(name);
        return RecordedWords.Split(name);
    }

    private static IReadOnlyList<RecordDifference> Read(RecordEvent one, Func<(string Name, string Key), string> thingOf, Func<string, JsonProperty, ValueDifference> valueOf)
    {
        using var changes = JsonDocument.Parse(one.Changes);
        return
        [
            .. from change in changes.RootElement.EnumerateArray()
               let kind = change.GetProperty("change").GetString()!
               let thing = (Name: change.GetProperty("thing").GetString()!, Key: change.GetProperty("id").GetString()!)
               let values = change.GetProperty("values").EnumerateObject().Where(value => kind != ChangeList.Changed || IsOther(value)).Select(value => valueOf(thing.Name, value)).ToList()
               where kind != ChangeList.Changed || values.Count > 0
               select new RecordDifference(thingOf(thing), thing.Key, kind, values),
        ];
    }

    private static ValueDifference Value(JsonProperty value)
    {
        var isState = value.Name.EndsWith("State", StringComparison.Ordinal) || value.Name is "Role" or "Conclusion";
        string? Text(int index) => RecordedValues.Shown(value.Value[index].GetString()) is { } text ? isState ? Words(text).ToLowerInvariant() : text : null;
        return new ValueDifference(Words(value.Name), Text(0), Text(1));
    }
}
