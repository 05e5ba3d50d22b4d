using System.Text;
using System.Xml;
using DocumentFormat.OpenXml;
using DocumentFormat.OpenXml.Packaging;
using DocumentFormat.OpenXml.Spreadsheet;
using ParticleLims.Web.Record;

namespace ParticleLims.Web.Exchange;

/// <summary>Writes tables as files that spreadsheets open: CSV (RFC 4180, UTF-8 with its mark so that µ stays µ), and XLSX with real numbers and days.</summary>
internal static class TableWriting
{
    public const string CsvType = "text/csv; charset=utf-8";
    public const string WorkbookType = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet";
    private const uint HeadStyle = 1;
    private const uint DayStyle = 2;
    private const uint TextStyle = 3;

    /// <summary>A table as CSV. A text that a spreadsheet would run as a formula is made harmless (OWASP, "CSV Injection"); numbers and days stay as they are.</summary>
    public static byte[] Csv(TableSheet sheet)
    {
        ArgumentNullException.ThrowIfNull(sheet);
        var lines = sheet.Rows.Select(row => string.Join(',', row.Cells.Select(cell => cell.Number is null && cell.Day is null ? RecordExport.Cell(cell.Text) : cell.Text)) + "\r\n");
        return [.. Encoding.UTF8.Preamble, .. Encoding.UTF8.GetBytes(string.Concat(lines))];
    }

    /// <summary>Tables as the sheets of one workbook. A text is stored as text and is never a formula.</summary>
    public static byte[] Workbook(IReadOnlyList<TableSheet> sheets)
    {
        ArgumentNullException.ThrowIfNull(sheets);
        using var stream = new MemoryStream();
        using (var document = SpreadsheetDocument.Create(stream, SpreadsheetDocumentType.Workbook))
        {
            var book = document.AddWorkbookPart();
            book.Workbook = new Workbook(new Sheets());
            book.AddNewPart<WorkbookStylesPart>().Stylesheet = Styles();
            foreach (var (index, sheet) in sheets.Index())
            {
                var part = book.AddNewPart<WorksheetPart>();
                part.Worksheet = Worksheet(sheet);
                book.Workbook.Sheets!.Append(new Sheet { Name = sheet.Name, SheetId = (uint)index + 1, Id = book.GetIdOfPart(part) });
            }
        }

        return stream.ToArray();
    }

    private static Worksheet Worksheet(TableSheet sheet)
    {
        var columns = sheet.Rows.Max(row => row.Cells.Count);
        return new Worksheet(
            new SheetViews(new SheetView(new Pane { VerticalSplit = 1, TopLeftCell = "A2", ActivePane = PaneValues.BottomLeft, State = PaneStateValues.Frozen }) { WorkbookViewId = 0 }),
            new Columns(Enumerable.Range(0, columns).Select(column => new Column
            {
                Min = (uint)column + 1, Max = (uint)column + 1, CustomWidth = true, Style = sheet.TextColumns.Contains(column) ? TextStyle : 0U,
                Width = Math.Clamp(sheet.Rows.Max(row => row[column].Text.Length) + 3, 10, 50),
            })),
            new SheetData(sheet.Rows.Select((row, index) => new Row(row.Cells.Select(cell => Written(cell, index == 0))) { RowIndex = (uint)row.Number })));
    }

    private static Cell Written(TableCell cell, bool isHead) => cell switch
    {
        { Text.Length: 0 } => new Cell(),
        { Day: { } day } => new Cell { CellValue = new CellValue((decimal)day.ToDateTime(TimeOnly.MinValue).ToOADate()), StyleIndex = DayStyle },
        { Number: { } number } => new Cell { CellValue = new CellValue(number) },
        _ => new Cell { DataType = CellValues.InlineString, StyleIndex = isHead ? HeadStyle : TextStyle, InlineString = new InlineString(new Text(Writable(cell.Text)) { Space = SpaceProcessingModeValues.Preserve }) },
    };

    private static string Writable(string text) => text.All(XmlConvert.IsXmlChar) ? text : string.Concat(text.EnumerateRunes().Where(rune => rune.Value > 0xFFFF || XmlConvert.IsXmlChar((char)rune.Value)));

    private static Stylesheet Styles() => new(
        new NumberingFormats(new NumberingFormat { NumberFormatId = 164, FormatCode = "yyyy\\-mm\\-dd" }) { Count = 1 },
        new Fonts(new Font(new FontSize { Val = 11 }, new FontName { Val = "Arial" }), new Font(new Bold(), new FontSize { Val = 11 }, new FontName { Val = "Arial" })) { Count = 2 },
        new Fills(new Fill(new PatternFill { PatternType = PatternValues.None }), new Fill(new PatternFill { PatternType = PatternValues.Gray125 })) { Count = 2 },
        new Borders(new Border(new LeftBorder(), new RightBorder(), new TopBorder(), new BottomBorder(), new DiagonalBorder())) { Count = 1 },
        new CellStyleFormats(new CellFormat()) { Count = 1 },
        new CellFormats(
            new CellFormat(),
            new CellFormat { FontId = 1, ApplyFont = true },
            new CellFormat { NumberFormatId = 164, ApplyNumberFormat = true },
            new CellFormat { NumberFormatId = 49, ApplyNumberFormat = true }) { Count = 4 });
}
