using System.Globalization;
using System.Text;

namespace ParticleLims.Pictures.Drawing;

/// <summary>The numbers of a picture. Numbers are written with a decimal point and without a thousands separator; an empty cell is "not known".</summary>
/// <param name="Columns">The name of each column, with its unit.</param>
/// <param name="Rows">The rows, each with as many cells as there are columns.</param>
public sealed record PlotTable(IReadOnlyList<string> Columns, IReadOnlyList<IReadOnlyList<string>> Rows)
{
    /// <summary>Whether the cell is a number, to be set to the right.</summary>
    public static bool IsNumber(string cell) => double.TryParse(cell, NumberStyles.Float, CultureInfo.InvariantCulture, out _);

    /// <summary>A number as a cell, with at most seven significant digits; empty where there is none.</summary>
    public static string Cell(double? value) => value?.ToString("G7", CultureInfo.InvariantCulture) ?? string.Empty;

    /// <summary>A number as a cell, rounded to so many decimals.</summary>
    public static string Cell(double value, int decimals) => Cell(Math.Round(value, decimals));

    /// <summary>The table without the columns in which nothing stands.</summary>
    public PlotTable WithoutEmptyColumns()
    {
        var kept = Enumerable.Range(0, Columns.Count).Where(column => Rows.Any(row => row[column].Length > 0)).ToList();
        return new PlotTable([.. kept.Select(column => Columns[column])], [.. Rows.Select(row => (IReadOnlyList<string>)[.. kept.Select(column => row[column])])]);
    }

    /// <summary>
    /// The table as comma-separated values (RFC 4180). A text that a spreadsheet would run as a formula gets an apostrophe before it; numbers stay numbers.
    /// </summary>
    public string ToCsv()
    {
        var text = new StringBuilder();
        foreach (var row in Rows.Prepend(Columns))
        {
            text.AppendJoin(',', row.Select(Quoted)).Append("\r\n");
        }

        return text.ToString();
    }

    private static string Quoted(string cell)
    {
        var harmless = cell.Length > 0 && "=+-@\t\r".Contains(cell[0], StringComparison.Ordinal) && !IsNumber(cell) ? "'" + cell : cell;
        return harmless.AsSpan().IndexOfAny("\",\r\n") < 0 ? harmless : $"\"{harmless.Replace("\"", "\"\"", StringComparison.Ordinal)}\"";
    }
}
