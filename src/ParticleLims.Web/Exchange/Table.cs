using System.Globalization;

namespace ParticleLims.Web.Exchange;

/// <summary>One cell of a table. A workbook says what is a number or a day; a CSV file has only text.</summary>
/// <param name="Text">As a person reads it; empty where there is nothing.</param>
/// <param name="Number">The number where the file says that it is one.</param>
/// <param name="Day">The day where the file says that it is one.</param>
/// <param name="Trouble">Why nothing can be read from it, in words; null where something can.</param>
internal sealed record TableCell(string Text, decimal? Number = null, DateOnly? Day = null, string? Trouble = null)
{
    /// <summary>A cell with nothing in it.</summary>
    public static TableCell Empty { get; } = new(string.Empty);

    public static TableCell Of(string? text) => string.IsNullOrEmpty(text) ? Empty : new TableCell(text);

    public static TableCell Of(decimal? number) => number is { } given ? new TableCell(given.ToString("0.############################", CultureInfo.InvariantCulture), Number: given) : Empty;

    public static TableCell Of(DateOnly? day) => day is { } given ? new TableCell(given.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture), Day: given) : Empty;

    /// <summary>Whether nothing stands in it.</summary>
    public bool IsEmpty => Trouble is null && string.IsNullOrWhiteSpace(Text);
}

/// <summary>A row of a table.</summary>
/// <param name="Number">Its place in the sheet, counted from 1 as a spreadsheet counts.</param>
/// <param name="Cells">Its cells from the first column on.</param>
internal sealed record TableRow(int Number, IReadOnlyList<TableCell> Cells)
{
    /// <summary>The cell of a column; empty beyond the last.</summary>
    public TableCell this[int column] => column < Cells.Count ? Cells[column] : TableCell.Empty;

    /// <summary>Whether nothing stands in it.</summary>
    public bool IsEmpty => Cells.All(cell => cell.IsEmpty);
}

/// <summary>A table: a sheet of a workbook, or a whole CSV file. Empty rows are not in it.</summary>
/// <param name="Name">The sheet's name; null for a CSV file.</param>
/// <param name="Rows">The first holds the names of the columns.</param>
internal sealed record TableSheet(string? Name, IReadOnlyList<TableRow> Rows)
{
    /// <summary>Columns that a spreadsheet must keep as text, so that a serial number keeps its zeros.</summary>
    public IReadOnlySet<int> TextColumns { get; init; } = new HashSet<int>();

    /// <summary>A table of cells, row for row.</summary>
    public static TableSheet Of(string? name, IEnumerable<IReadOnlyList<TableCell>> rows) => new(name, [.. rows.Select((cells, index) => new TableRow(index + 1, cells))]);
}
