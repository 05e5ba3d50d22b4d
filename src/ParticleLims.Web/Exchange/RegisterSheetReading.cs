using ParticleLims.Laboratory.Exchange;

namespace ParticleLims.Web.Exchange;

/// <summary>Reads one table of a register: its first row names the columns, in any order.</summary>
internal sealed class RegisterSheetReading
{
    private readonly RegisterSheet sheet;
    private readonly string where;
    private readonly Dictionary<ExchangeColumn, int> places = [];
    private readonly HashSet<int> passedOver = [];
    private readonly List<string> problems = [];
    private readonly List<string> notes = [];

    public RegisterSheetReading(RegisterSheet kind, TableSheet table)
    {
        ArgumentNullException.ThrowIfNull(table);
        (sheet, where) = (kind, table.Name is null ? string.Empty : $"Sheet “{table.Name}”: ");
        Place(table.Rows[0]);
        if (problems.Count > 0)
        {
            return;
        }

        var marks = new DecimalMarks();
        Rows = [.. table.Rows.Skip(1).Select(row => sheet.Read(new RowPlace(table.Name, row.Number), new RowReader(row, places, marks)))];
        if (marks.Problem is { } mixed)
        {
            problems.Add(where + mixed);
        }

        if (table.Rows.Skip(1).FirstOrDefault(row => row.Cells.Where((cell, column) => !places.ContainsValue(column) && !passedOver.Contains(column)).Any(cell => !cell.IsEmpty)) is { } stray)
        {
            problems.Add(FormattableString.Invariant($"{where}Row {stray.Number} has something in a column without a name. Name the column, or empty the cell; in a CSV file a separator may stand too many."));
        }
    }

    /// <summary>The rows below the names.</summary>
    public IReadOnlyList<RegisterRow> Rows { get; } = [];

    /// <summary>What is wrong with the table, a sentence each.</summary>
    public IReadOnlyList<string> Problems => problems;

    /// <summary>What is passed over, a sentence each.</summary>
    public IReadOnlyList<string> Notes => notes;

    private void Place(TableRow names)
    {
        var known = sheet.Columns.ToDictionary(column => ExchangeColumn.Plain(column.Title), StringComparer.Ordinal);
        foreach (var (at, cell) in names.Cells.Index().Where(named => !named.Item.IsEmpty))
        {
            if (!known.TryGetValue(ExchangeColumn.Plain(cell.Text), out var column))
            {
                problems.Add(where + Unknown(cell.Text.Trim()));
            }
            else if (!column.IsRead)
            {
                passedOver.Add(at);
            }
            else if (!places.TryAdd(column, at))
            {
                problems.Add($"{where}The column “{column.Title}” stands twice. Keep one of them.");
            }
        }

        foreach (var missing in sheet.Columns.Where(column => column.Required && !places.ContainsKey(column)))
        {
            problems.Add($"{where}The column “{missing.Title}” is missing; {sheet.Title.ToLowerInvariant()} need it.");
        }

        if (passedOver.Count > 0)
        {
            notes.Add($"{where}Passed over, because an import does not take it: {string.Join(", ", passedOver.Order().Select(at => $"“{names[at].Text.Trim()}”"))}.");
        }
    }

    private string Unknown(string title)
    {
        var name = ExchangeColumn.Plain(title).Split(" (")[0];
        var near = sheet.Columns.Where(column => column.IsRead && ExchangeColumn.Plain(column.Name) == name).Select(column => $"“{column.Title}”").ToList();
        var shown = title.Length > 60 ? title[..60] + "…" : title;
        return near.Count > 0
            ? $"The column “{shown}” is not known; {string.Join(" and ", near)} {(near.Count == 1 ? "is" : "are")}. Name it so, with that unit."
            : $"The column “{shown}” is not known for {sheet.Title.ToLowerInvariant()}. Name it as in the template, or take it out.";
    }
}
