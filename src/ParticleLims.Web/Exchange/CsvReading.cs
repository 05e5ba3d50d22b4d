using System.Globalization;
using System.Text;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Web.Exchange;

/// <summary>
/// Reads comma-separated values (RFC 4180), separated by commas, semicolons or tabs, whichever parts the first row into most cells. Lines end by LF, CR LF or CR. Written here because a refusal has to
/// name the row as a spreadsheet counts it, empty rows included, and where an open quotation mark stands.
/// </summary>
internal sealed class CsvReading
{
    private const char End = '\uFFFF';
    private static readonly char[] Separators = [',', ';', '\t'];
    private readonly string text;
    private readonly char separator;
    private int at;
    private int number;

    private CsvReading(string all, char parts) => (text, separator) = (all, parts);

    /// <summary>The rows that have something in them.</summary>
    /// <exception cref="RefusedException">A quotation mark is not closed, or there is too much.</exception>
    public static IReadOnlyList<TableRow> Read(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        List<TableRow> rows = [.. new CsvReading(text, SeparatorOf(text)).Rows().Where(row => !row.IsEmpty).Take(TableFile.MostRows + 1)];
        return rows.Count > TableFile.MostRows ? throw TableFile.Refuse("table-rows", TooManyRows) : rows;
    }

    internal static string TooManyRows { get; } = string.Create(CultureInfo.InvariantCulture, $"The file has more than {TableFile.MostRows} rows. Split it.");

    // The one that stands most often in the first row that has something in it, not counting what stands within quotation marks.
    private static char SeparatorOf(string text)
    {
        var (counts, quoted, empty) = (new int[Separators.Length], false, true);
        foreach (var letter in text)
        {
            if (!quoted && !empty && (letter is '\r' or '\n'))
            {
                break;
            }

            quoted ^= letter == '"';
            empty &= char.IsWhiteSpace(letter) && letter != '\t';
            if (!quoted && Array.IndexOf(Separators, letter) is >= 0 and var index)
            {
                counts[index]++;
            }
        }

        return Separators[Array.IndexOf(counts, counts.Max())];
    }

    private IEnumerable<TableRow> Rows()
    {
        while (at < text.Length)
        {
            number++;
            yield return new TableRow(number, Cells());
        }
    }

    private List<TableCell> Cells()
    {
        var cells = new List<TableCell>();
        while (true)
        {
            cells.Add(Peek == '"' ? Quoted() : Plain());
            if (cells.Count > TableFile.MostColumns)
            {
                throw Refuse($"has more than {TableFile.MostColumns} cells. Look whether its separator is the one of the first row");
            }

            if (Peek != separator)
            {
                EndLine();
                return cells;
            }

            at++;
        }
    }

    private char Peek => at < text.Length ? text[at] : End;

    private TableCell Plain()
    {
        var from = at;
        while (at < text.Length && text[at] != separator && text[at] is not ('\r' or '\n'))
        {
            at++;
        }

        return Cell(text[from..at]);
    }

    private TableCell Quoted()
    {
        var inside = new StringBuilder();
        for (at++; at < text.Length; at++)
        {
            if (text[at] != '"')
            {
                inside.Append(text[at]);
            }
            else if (at + 1 < text.Length && text[at + 1] == '"')
            {
                inside.Append(text[at++]);
            }
            else
            {
                at++;
                SkipBlanks();
                return Peek == separator || Peek is '\r' or '\n' or End ? Cell(inside.ToString()) : throw Refuse("has something behind a closing quotation mark. Double the quotation marks inside a cell, or take them away");
            }
        }

        throw Refuse("opens a quotation mark and does not close it. Close it, or take it away");
    }

    private TableCell Cell(string content) => content.Length > TableFile.LongestCell
        ? throw Refuse(string.Create(CultureInfo.InvariantCulture, $"has a cell of more than {TableFile.LongestCell} characters. Look whether a quotation mark is missing"))
        : TableCell.Of(content.Trim());

    private void SkipBlanks()
    {
        while (Peek == ' ')
        {
            at++;
        }
    }

    private void EndLine()
    {
        if (Peek == '\r')
        {
            at++;
        }

        if (Peek == '\n')
        {
            at++;
        }
    }

    private RefusedException Refuse(string words) => TableFile.Refuse("table-csv", string.Create(CultureInfo.InvariantCulture, $"Row {number} {words}."));
}
