using System.Globalization;
using DocumentFormat.OpenXml.Packaging;
using DocumentFormat.OpenXml.Spreadsheet;

namespace ParticleLims.Web.Exchange;

/// <summary>Reads single cells of a workbook: shared texts, and which numbers are days.</summary>
internal sealed class WorkbookCells
{
    // A workbook keeps numbers as doubles: fifteen digits are certain.
    private const decimal MostCertain = 999_999_999_999_999m;
    private const int DaysTo1904 = 1_462;
    private readonly List<string> texts;
    private readonly List<bool> dayStyles;
    private readonly bool from1904;

    public WorkbookCells(WorkbookPart book)
    {
        ArgumentNullException.ThrowIfNull(book);
        texts = [.. (book.SharedStringTablePart?.SharedStringTable?.Elements<SharedStringItem>() ?? []).Select(item => TextOf(item.Text, item.Elements<Run>()))];
        dayStyles = DayStyles(book.WorkbookStylesPart?.Stylesheet);
        from1904 = book.Workbook?.WorkbookProperties?.Date1904?.Value == true;
    }

    /// <summary>What a cell holds; of a formula the value that was stored with it.</summary>
    public TableCell Read(Cell cell)
    {
        ArgumentNullException.ThrowIfNull(cell);
        var stored = cell.CellValue?.Text ?? string.Empty;
        if (cell.CellFormula is not null && stored.Length == 0 && cell.InlineString is null)
        {
            return new TableCell(string.Empty, Trouble: "The cell holds a formula without a stored value. Open the workbook in a spreadsheet program and save it, or write the value itself.");
        }

        var type = cell.DataType?.Value ?? CellValues.Number;
        return type == CellValues.SharedString ? Text(Shared(stored))
            : type == CellValues.InlineString ? Text(TextOf(cell.InlineString?.Text, cell.InlineString?.Elements<Run>() ?? []))
            : type == CellValues.String ? Text(stored)
            : type == CellValues.Boolean ? TableCell.Of(stored == "1" ? "TRUE" : "FALSE")
            : type == CellValues.Error ? new TableCell(stored, Trouble: $"The cell holds the error {stored}. Write the value itself.")
            : type == CellValues.Date ? Date(stored)
            : Number(stored, cell.StyleIndex?.Value ?? 0);
    }

    private static TableCell Text(string text) => text.Length > TableFile.LongestCell
        ? new TableCell(text[..40], Trouble: string.Create(CultureInfo.InvariantCulture, $"The cell has more than {TableFile.LongestCell} characters. Shorten it."))
        : TableCell.Of(text.Trim());

    private static string TextOf(Text? text, IEnumerable<Run> runs) => text?.Text ?? string.Concat(runs.Select(run => run.Text?.Text));

    private string Shared(string index) => int.TryParse(index, NumberStyles.None, CultureInfo.InvariantCulture, out var at) && at < texts.Count
        ? texts[at]
        : throw new FormatException("A cell names a text that the workbook does not have.");

    private static TableCell Date(string stored) => DateTime.TryParse(stored, CultureInfo.InvariantCulture, DateTimeStyles.RoundtripKind, out var at)
        ? TableCell.Of(DateOnly.FromDateTime(at))
        : new TableCell(stored, Trouble: $"“{stored}” is no day. Write it as 2026-03-02.");

    private TableCell Number(string stored, uint style)
    {
        if (stored.Length == 0)
        {
            return TableCell.Empty;
        }

        if (!double.TryParse(stored, NumberStyles.Float, CultureInfo.InvariantCulture, out var value) || !double.IsFinite(value))
        {
            throw new FormatException("A cell holds a number that is none.");
        }

        if (style < dayStyles.Count && dayStyles[(int)style])
        {
            return Day(value, stored);
        }

        // The conversion rounds to fifteen digits, so that 0.1 is 0.1 again.
        return Math.Abs(value) > (double)MostCertain
            ? new TableCell(stored, Trouble: $"“{stored}” is kept as a number, of which only fifteen digits are certain. Format the cell as text and write it anew.")
            : TableCell.Of((decimal)value);
    }

    private TableCell Day(double value, string stored)
    {
        var serial = value + (from1904 ? DaysTo1904 : 0);
        return serial is >= 61 and < 2_958_466
            ? TableCell.Of(DateOnly.FromDateTime(DateTime.FromOADate(serial)))
            : new TableCell(stored, Trouble: $"“{stored}” is formatted as a day and is none. Write it as 2026-03-02.");
    }

    private static List<bool> DayStyles(Stylesheet? styles)
    {
        var own = (styles?.NumberingFormats?.Elements<NumberingFormat>() ?? []).Where(format => format.NumberFormatId is not null)
            .GroupBy(format => format.NumberFormatId!.Value).ToDictionary(same => same.Key, same => IsDay(same.First().FormatCode?.Value ?? string.Empty));
        return [.. (styles?.CellFormats?.Elements<CellFormat>() ?? []).Select(format => format.NumberFormatId?.Value ?? 0).Select(id => own.TryGetValue(id, out var isDay) ? isDay : IsBuiltInDay(id))];
    }

    // ISO/IEC 29500-1, 18.8.30: the formats that need no code in the file, those with a day in them.
    private static bool IsBuiltInDay(uint id) => id is (>= 14 and <= 17) or 22 or (>= 27 and <= 31) or 36 or (>= 50 and <= 54) or 57 or 58;

    // A format with a year or a day outside of quotation marks, brackets and escapes; months alone may be minutes.
    private static bool IsDay(string code)
    {
        var (quoted, bracketed) = (false, false);
        for (var at = 0; at < code.Length; at++)
        {
            switch (code[at])
            {
                case '"': quoted = !quoted; break;
                case '[' when !quoted: bracketed = true; break;
                case ']' when !quoted: bracketed = false; break;
                case '\\' or '_' or '*' when !quoted: at++; break;
                case 'y' or 'Y' or 'd' or 'D' when !quoted && !bracketed: return true;
                default: break;
            }
        }

        return false;
    }
}
