using System.Globalization;
using System.Text.RegularExpressions;
using ParticleLims.Analysis.Quantities;
using ParticleLims.Laboratory.Equipment;
using ParticleLims.Laboratory.Exchange;

namespace ParticleLims.Web.Exchange;

/// <summary>Reads the cells of one row and collects what is wrong with them, so that a person sees all of it at once.</summary>
internal sealed partial class RowReader(TableRow row, IReadOnlyDictionary<ExchangeColumn, int> places, DecimalMarks marks)
{
    private static readonly EquipmentState[] States = Enum.GetValues<EquipmentState>();
    private readonly List<RowFinding> findings = [];

    /// <summary>What is wrong; nothing where the row can be read.</summary>
    public IReadOnlyList<RowFinding> Findings => findings;

    /// <summary>Whether something stands in one of the columns.</summary>
    public bool HasAny(params IEnumerable<ExchangeColumn> columns) => columns.Any(column => !CellOf(column).IsEmpty);

    /// <summary>A text; empty where there is none.</summary>
    public string Text(ExchangeColumn column)
    {
        var cell = CellOf(column);
        var text = Unguarded(cell.Text.Trim());
        if (IsMissing(column, cell) || cell.Trouble is not null)
        {
            return text;
        }

        if (text.Length > column.Longest)
        {
            Find(column, string.Create(CultureInfo.InvariantCulture, $"“{Shown(text)}” has {text.Length} characters; at most {column.Longest} are kept. Shorten it."));
        }

        return text;
    }

    /// <summary>A number; null where there is none or it cannot be read.</summary>
    public decimal? Number(ExchangeColumn column)
    {
        var cell = CellOf(column);
        if (IsMissing(column, cell) || cell.IsEmpty || cell.Trouble is not null)
        {
            return null;
        }

        if (cell.Number is { } stored)
        {
            return stored;
        }

        var (number, problem) = cell.Day is null ? NumberText.Read(Unguarded(cell.Text.Trim()), marks, row.Number) : (null, "It is formatted as a day. Format the cell as a number.");
        if (problem is not null)
        {
            Find(column, $"“{Shown(cell.Text)}”: {problem}");
        }

        return number;
    }

    /// <summary>A whole number; null where there is none or it cannot be read.</summary>
    public int? Whole(ExchangeColumn column)
    {
        if (Number(column) is not { } number)
        {
            return null;
        }

        if (number == decimal.Truncate(number) && number is > -1_000_000_000m and < 1_000_000_000m)
        {
            return (int)number;
        }

        Find(column, $"“{Shown(CellOf(column).Text)}”: a whole number stands here.");
        return null;
    }

    /// <summary>A day; null where there is none or it cannot be read.</summary>
    public DateOnly? Day(ExchangeColumn column)
    {
        var cell = CellOf(column);
        if (IsMissing(column, cell) || cell.IsEmpty || cell.Trouble is not null || cell.Day is not null)
        {
            return cell.Day;
        }

        if (DateOnly.TryParseExact(cell.Text.Trim(), "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var day))
        {
            return day;
        }

        Find(column, $"“{Shown(cell.Text)}” is no day. Write it as 2026-03-02 (year, month, day: ISO 8601){(cell.Number is null ? null : ", or format the cell as a date")}.");
        return null;
    }

    /// <summary>One of a few words; null where there is none or it is none of them.</summary>
    public T? Choice<T>(ExchangeColumn column, IReadOnlyList<T> choices, Func<T, string> words)
        where T : struct
    {
        var cell = CellOf(column);
        if (IsMissing(column, cell) || cell.IsEmpty || cell.Trouble is not null)
        {
            return null;
        }

        foreach (var choice in choices)
        {
            if (ExchangeColumn.Plain(words(choice)) == ExchangeColumn.Plain(cell.Text))
            {
                return choice;
            }
        }

        Find(column, $"“{Shown(cell.Text)}” is none of: {string.Join(", ", choices.Select(words))}.");
        return null;
    }

    /// <summary>A mass from a column in grams or milligrams.</summary>
    public Mass? Mass(ExchangeColumn column) => Quantity(column, number => Analysis.Quantities.Mass.FromGrams(column.Unit == "mg" ? number / 1_000m : number));

    /// <summary>An aperture from a column in micrometres.</summary>
    public Aperture? Aperture(ExchangeColumn column) => Quantity(column, Analysis.Quantities.Aperture.FromMicrometres);

    /// <summary>What the columns of an item's life say.</summary>
    public EarlierLife Life() => new(Choice(LifeColumns.State, States, state => state.Words()), Text(LifeColumns.Reason), Day(LifeColumns.Inspected), Day(LifeColumns.Due));

    /// <summary>Asks for the rest of a group of which something is there.</summary>
    public void RequireTogether(string what, params IEnumerable<ExchangeColumn> columns)
    {
        foreach (var column in columns.Where(column => CellOf(column).IsEmpty))
        {
            Find(column, $"It is empty. {what} has this as well; write it, or leave all of it empty.");
        }
    }

    private T? Quantity<T>(ExchangeColumn column, Func<decimal, T> make)
        where T : struct
    {
        if (Number(column) is not { } number)
        {
            return null;
        }

        try
        {
            return make(number);
        }
        catch (ArgumentOutOfRangeException fault)
        {
            Find(column, $"“{Shown(CellOf(column).Text)}”: {fault.Message.Split(" (Parameter", StringSplitOptions.None)[0]}");
            return null;
        }
    }

    private TableCell CellOf(ExchangeColumn column) => places.TryGetValue(column, out var place) ? row[place] : TableCell.Empty;

    private bool IsMissing(ExchangeColumn column, TableCell cell)
    {
        if (cell.Trouble is { } trouble)
        {
            Find(column, trouble);
        }
        else if (column.Required && cell.IsEmpty)
        {
            Find(column, "It is empty; every row needs it.");
            return true;
        }

        return false;
    }

    private void Find(ExchangeColumn column, string words)
    {
        var finding = new RowFinding(column.Member, words);
        if (!findings.Contains(finding))
        {
            findings.Add(finding);
        }
    }

    // An apostrophe before a sign is what an export puts there to make a text harmless.
    private static string Unguarded(string text) => Guarded().IsMatch(text) ? text[1..] : text;

    private static string Shown(string text) => text.Trim() is { Length: > 40 } longer ? longer[..40] + "…" : text.Trim();

    [GeneratedRegex(@"\A'[=+\-@]", RegexOptions.CultureInvariant, 1000)]
    private static partial Regex Guarded();
}
