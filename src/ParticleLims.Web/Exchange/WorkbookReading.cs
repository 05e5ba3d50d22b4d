using System.IO.Compression;
using System.Xml;
using DocumentFormat.OpenXml;
using DocumentFormat.OpenXml.Packaging;
using DocumentFormat.OpenXml.Spreadsheet;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Web.Exchange;

/// <summary>Reads the sheets of an XLSX workbook (ISO/IEC 29500-1): stored values only, no formula is evaluated, nothing outside the file is fetched. Unpacked it may not be larger than a limit, counted while unpacking.</summary>
internal static class WorkbookReading
{
    /// <summary>The most bytes of the unpacked workbook: 50 MiB.</summary>
    public const long LargestUnpacked = 50L * 1024 * 1024;

    private const int MostParts = 500;

    /// <summary>Reads all sheets that have something in them.</summary>
    /// <exception cref="RefusedException">It is no workbook, or too large unpacked.</exception>
    public static IReadOnlyList<TableSheet> Read(byte[] bytes)
    {
        ArgumentNullException.ThrowIfNull(bytes);
        try
        {
            RequireSmallUnpacked(bytes);
            using var document = SpreadsheetDocument.Open(new MemoryStream(bytes, writable: false), isEditable: false, new OpenSettings { MaxCharactersInPart = LargestUnpacked, AutoSave = false });
            return document.WorkbookPart is { Workbook: not null } book ? Sheets(book) : throw NoWorkbook();
        }
        catch (Exception fault) when (fault is InvalidDataException or OpenXmlPackageException or XmlException or FormatException or ArgumentException or IOException or InvalidOperationException or KeyNotFoundException or NotSupportedException or InvalidCastException)
        {
            throw NoWorkbook(fault);
        }
    }

    private static List<TableSheet> Sheets(WorkbookPart book)
    {
        var cells = new WorkbookCells(book);
        return [.. book.Workbook!.Descendants<Sheet>().Where(sheet => sheet.Id?.Value is not null)
            .Select(sheet => (sheet.Name, Part: book.GetPartById(sheet.Id!.Value!) as WorksheetPart)).Where(sheet => sheet.Part is not null)
            .Select(sheet => new TableSheet(sheet.Name?.Value ?? string.Empty, Rows(sheet.Part!, cells))).Where(sheet => sheet.Rows.Count > 0)];
    }

    private static List<TableRow> Rows(WorksheetPart sheet, WorkbookCells cells)
    {
        var rows = new List<TableRow>();
        var number = 0;
        using var reader = OpenXmlReader.Create(sheet);
        while (reader.Read())
        {
            if (reader.ElementType == typeof(Row) && reader.IsStartElement)
            {
                var row = (Row)reader.LoadCurrentElement()!;
                number = (int?)row.RowIndex?.Value ?? number + 1;
                var read = new TableRow(number, Cells(row, cells));
                if (!read.IsEmpty)
                {
                    rows.Add(read);
                }
            }

            if (rows.Count > TableFile.MostRows)
            {
                throw TableFile.Refuse("table-rows", CsvReading.TooManyRows);
            }
        }

        return rows;
    }

    private static List<TableCell> Cells(Row row, WorkbookCells cells)
    {
        var read = new List<TableCell>();
        var next = 0;
        foreach (var cell in row.Elements<Cell>())
        {
            // A cell that does not say where it stands follows the one before it, also an empty one.
            var column = cell.CellReference?.Value is { } reference ? ColumnOf(reference) : next;
            next = column == int.MaxValue ? column : column + 1;
            var content = cells.Read(cell);
            if (content.IsEmpty)
            {
                continue;
            }

            if (column >= TableFile.MostColumns)
            {
                throw TableFile.Refuse("table-columns", $"A row has something beyond column {TableFile.MostColumns}. Take away what is no column of the register.");
            }

            while (read.Count <= column)
            {
                read.Add(TableCell.Empty);
            }

            read[column] = content;
        }

        return read;
    }

    // "C7" is column 2; a reference that is none lies beyond every limit.
    private static int ColumnOf(string reference)
    {
        var column = 0L;
        foreach (var letter in reference.TakeWhile(char.IsAsciiLetter).Take(6))
        {
            column = (column * 26) + (char.ToUpperInvariant(letter) - 'A') + 1;
        }

        return column is 0 or > int.MaxValue ? int.MaxValue : (int)column - 1;
    }

    private static void RequireSmallUnpacked(byte[] bytes)
    {
        using var archive = new ZipArchive(new MemoryStream(bytes, writable: false), ZipArchiveMode.Read);
        if (archive.Entries.Count > MostParts)
        {
            throw TooLarge();
        }

        // What an archive says of its sizes may be a lie, so the bytes are counted.
        var (left, buffer) = (LargestUnpacked, new byte[81_920]);
        foreach (var entry in archive.Entries)
        {
            using var unpacked = entry.Open();
            for (var read = unpacked.Read(buffer); read > 0; read = unpacked.Read(buffer))
            {
                left -= read;
                if (left < 0)
                {
                    throw TooLarge();
                }
            }
        }
    }

    private static RefusedException TooLarge() => TableFile.Refuse("table-unpacked", "Unpacked, the workbook is larger than 50 MB. Save the register alone as a new workbook, or as CSV.");

    private static RefusedException NoWorkbook(Exception? because = null) =>
        TableFile.Refuse("table-workbook", "The file is packed like an XLSX workbook and cannot be read as one. Open it in a spreadsheet program and save it as XLSX, or as CSV.", because);
}
