using System.Text;
using ParticleLims.Laboratory.Exchange;
using ParticleLims.Laboratory.Record;

namespace ParticleLims.Web.Exchange;

/// <summary>Reads the tables of a file that somebody hands in. What it is follows from its content, whatever its name says; nothing in it is ever run or evaluated.</summary>
internal static class TableFile
{
    /// <summary>The largest file in bytes: 5 MiB.</summary>
    public const int Largest = 5 * 1024 * 1024;

    /// <summary>The most rows with something in them: those of a register and its names.</summary>
    public const int MostRows = RegisterFile.MostRows + 100;

    /// <summary>The most columns.</summary>
    public const int MostColumns = 200;

    /// <summary>The longest text of a cell, in characters.</summary>
    public const int LongestCell = 2_000;

    private static readonly UTF8Encoding Strict = new(encoderShouldEmitUTF8Identifier: false, throwOnInvalidBytes: true);

    private static readonly (byte[] Begin, string Words)[] Others =
    [
        ([0xD0, 0xCF, 0x11, 0xE0, 0xA1, 0xB1, 0x1A, 0xE1], "The file is a workbook in the old binary form, or one that is protected by a password. Save it as an XLSX workbook without a password, or as CSV."),
        ("%PDF-"u8.ToArray(), "The file is a PDF document, whatever its name says. Save the table as XLSX or CSV."),
        ([0x89, 0x50, 0x4E, 0x47], "The file is a picture, whatever its name says. Choose the table as XLSX or CSV."),
        ([0xFF, 0xD8, 0xFF], "The file is a picture, whatever its name says. Choose the table as XLSX or CSV."),
    ];

    /// <summary>Reads the tables.</summary>
    /// <exception cref="RefusedException">It is no table that can be read; says why and what to do.</exception>
    public static IReadOnlyList<TableSheet> Read(byte[] bytes)
    {
        ArgumentNullException.ThrowIfNull(bytes);
        if (bytes.Length is 0 or > Largest)
        {
            throw Refuse("table-size", bytes.Length == 0 ? "The file is empty." : "The file is larger than 5 MB. Split it, or leave out what is no row of the register.");
        }

        if (Array.Find(Others, one => bytes.AsSpan().StartsWith(one.Begin)).Words is { } other)
        {
            throw Refuse("table-kind", other);
        }

        return bytes.AsSpan().StartsWith("PK\x03\x04"u8) ? WorkbookReading.Read(bytes) : [new TableSheet(null, CsvReading.Read(TextOf(bytes)))];
    }

    internal static RefusedException Refuse(string code, string words, Exception? because = null) => new(code, words, "file", because);

    private static string TextOf(byte[] bytes)
    {
        try
        {
            var text = Strict.GetString(bytes).TrimStart('\uFEFF');
            return text.Any(letter => char.IsControl(letter) && letter is not ('\t' or '\r' or '\n'))
                ? throw Refuse("table-kind", "The file is neither a CSV table nor an XLSX workbook, whatever its name says. Save the table as XLSX or CSV.")
                : text.TrimStart().StartsWith('<') ? throw Refuse("table-kind", "The file is a web page or XML, whatever its name says. Save the table as XLSX or CSV.") : text;
        }
        catch (DecoderFallbackException fault)
        {
            throw Refuse("table-kind", "The file is neither an XLSX workbook nor text in UTF-8. Save the table as XLSX, or as CSV with the encoding UTF-8.", fault);
        }
    }
}
