using System.Text.Json;

namespace ParticleLims.Laboratory.Record;

/// <summary>A row as the record leaves it.</summary>
/// <param name="Since">The event that added it.</param>
/// <param name="Values">Its values by name; what is not there was never set.</param>
internal sealed record RecordedRow(long Since, Dictionary<string, string?> Values);

/// <summary>Follows the record from its first event on and knows at its end what every row must hold.</summary>
internal sealed class RowsByRecord
{
    private const string MigrateCode = "storage.migrate";
    private readonly Dictionary<(string Thing, string Key), RecordedRow> rows = [];

    /// <summary>The last event after which the program itself gave older rows new columns.</summary>
    public long LastMigration { get; private set; }

    /// <summary>Begins with a row that the program ships.</summary>
    public void Ship(string thing, string key, Dictionary<string, string?> values) => rows[(thing, key)] = new RecordedRow(0, values);

    /// <summary>Follows one event, in the order of the record.</summary>
    public void Follow(RecordEvent one)
    {
        if (one.Code == MigrateCode)
        {
            LastMigration = one.Sequence;
        }

        using var changes = JsonDocument.Parse(one.Changes);
        foreach (var change in changes.RootElement.EnumerateArray())
        {
            Follow(one.Sequence, change);
        }
    }

    /// <summary>The row, which is then accounted for; null when the record knows none.</summary>
    public RecordedRow? Take(string thing, string key) => rows.Remove((thing, key), out var row) ? row : null;

    /// <summary>Those that nobody took: the record knows them, and no table has them.</summary>
    public IEnumerable<(string Thing, string Key)> Left(IReadOnlySet<string> things) => rows.Keys.Where(row => things.Contains(row.Thing)).OrderBy(row => row.Thing, StringComparer.Ordinal).ThenBy(row => row.Key, StringComparer.Ordinal);

    private void Follow(long sequence, JsonElement change)
    {
        var row = (change.GetProperty("thing").GetString()!, change.GetProperty("id").GetString()!);
        var kind = change.GetProperty("change").GetString();
        if (kind == ChangeList.Removed)
        {
            rows.Remove(row);
            return;
        }

        if (kind == ChangeList.Added || !rows.TryGetValue(row, out var known))
        {
            rows[row] = known = new RecordedRow(sequence, new Dictionary<string, string?>(StringComparer.Ordinal));
        }

        foreach (var value in change.GetProperty("values").EnumerateObject())
        {
            known.Values[value.Name] = value.Value[1].GetString();
        }
    }
}
