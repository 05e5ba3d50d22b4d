using PdfSharp.Drawing;
using PdfSharp.UniversalAccessibility;

namespace ParticleLims.CertificatePdf.Flow;

/// <summary>A table cut into rows that may stand on different pages.</summary>
internal sealed class Table
{
    private const int MostLinesInAPiece = 36;
    private const double Padding = 2.1;
    private const double Gap = 7;

    private readonly Typesetter _type;
    private readonly double _left;
    private readonly IReadOnlyList<Column> _columns;
    private readonly IReadOnlyList<IReadOnlyList<Cell>> _rows;
    private readonly DecimalColumn?[] _decimals;

    /// <summary>A table at a left edge, with the cells of each row in the order of the columns.</summary>
    public Table(Typesetter type, double left, IReadOnlyList<Column> columns, IReadOnlyList<IReadOnlyList<Cell>> rows)
    {
        (_type, _left, _columns, _rows) = (type, left, columns, rows);
        _decimals = [.. columns.Select((column, i) => column.Setting == Setting.Number
            ? new DecimalColumn(type, rows.Select(row => (row[i].Text, row[i].Lettering ?? column.Lettering)))
            : null)];
    }

    private double Width => _columns.Sum(column => column.Width);

    /// <summary>The head and the rows as pieces.</summary>
    public IReadOnlyList<Piece> Pieces()
    {
        var table = new TableOfPieces();
        table.Head = Head(table);
        return [table.Head, .. _rows.SelectMany((row, i) => Row(row, table, last: i == _rows.Count - 1))];
    }

    private Piece Head(TableOfPieces table)
    {
        var lines = _columns.Select(column => _type.Wrap(column.Head, Lettering.Label, column.Width - Gap - column.Inset)).ToList();
        var height = (lines.Max(cell => cell.Count) * Lettering.Label.LineHeight) + (2 * Padding);
        return new Piece(height, (sheet, y) => DrawHead(sheet, y, height, lines)) { Table = table, KeepWithNext = true };
    }

    private void DrawHead(Sheet sheet, double y, double height, List<IReadOnlyList<string>> lines)
    {
        using (sheet.Artifact())
        {
            sheet.Box(_left, y, Width, height, House.Tint);
            sheet.Rule(_left, y + height, Width, House.Teal, 0.8);
        }

        using var row = sheet.Element(PdfBlockLevelElementTag.TableRow);
        var x = _left;
        for (var i = 0; i < _columns.Count; i++)
        {
            using var cell = sheet.Element(PdfBlockLevelElementTag.TableHeaderCell);
            var baseLine = y + height - Padding - (lines[i].Count * Lettering.Label.LineHeight) + Lettering.Label.Rise;
            foreach (var line in lines[i])
            {
                var start = _decimals[i] is null ? x + (Gap / 2) + _columns[i].Inset : x + _columns[i].Width - (Gap / 2) - _type.Width(line, Lettering.Label);
                sheet.Text(start, baseLine, line, Lettering.Label);
                baseLine += Lettering.Label.LineHeight;
            }

            x += _columns[i].Width;
        }
    }

    /// <summary>A row is one piece, unless a text in it is so long that it has to be continued.</summary>
    private IEnumerable<Piece> Row(IReadOnlyList<Cell> row, TableOfPieces table, bool last)
    {
        var lines = row.Select((cell, i) => Lines(cell, i)).ToList();
        var most = lines.Max(cell => cell.Count);
        for (var from = 0; from < most; from += MostLinesInAPiece)
        {
            var slice = lines.Select(cell => cell.Skip(from).Take(MostLinesInAPiece).ToList()).ToList();
            var height = row.Select((cell, i) => slice[i].Count * LetteringOf(cell, i).LineHeight).Max() + (2 * Padding);
            var (first, end) = (from == 0, from + MostLinesInAPiece >= most);
            yield return new Piece(height, (sheet, y) => DrawRow(sheet, y, height, row, slice, first, end ? (last ? House.Teal : House.Hair) : null)) { Table = table };
        }
    }

    private IReadOnlyList<string> Lines(Cell cell, int column)
    {
        var room = _columns[column].Width - Gap - _columns[column].Inset - (cell.Sign == Sign.None ? 0 : LetteringOf(cell, column).Size);
        return _type.Wrap(cell.Text, LetteringOf(cell, column), room);
    }

    private Lettering LetteringOf(Cell cell, int column) => cell.Lettering ?? _columns[column].Lettering;

    private void DrawRow(Sheet sheet, double y, double height, IReadOnlyList<Cell> row, List<List<string>> lines, bool first, XColor? ruleBelow)
    {
        if (ruleBelow is { } colour)
        {
            using var artifact = sheet.Artifact();
            sheet.Rule(_left, y + height, Width, colour);
        }

        using var element = sheet.Element(PdfBlockLevelElementTag.TableRow);
        var x = _left;
        for (var i = 0; i < row.Count; i++)
        {
            DrawCell(sheet, x, y + Padding, row[i], i, lines[i], first);
            x += _columns[i].Width;
        }
    }

    private void DrawCell(Sheet sheet, double x, double y, Cell cell, int column, List<string> lines, bool first)
    {
        using var element = sheet.Element(PdfBlockLevelElementTag.TableDataCell);
        var lettering = LetteringOf(cell, column);
        var start = x + (Gap / 2) + _columns[column].Inset;
        if (cell.Sign != Sign.None)
        {
            if (first)
            {
                using var artifact = sheet.Artifact();
                sheet.Fill(Outline(cell.Sign, start, y, lettering), lettering.Colour);
            }

            start += lettering.Size;
        }

        var baseLine = y + lettering.Rise;
        foreach (var line in lines)
        {
            var left = _decimals[column] is { } decimals && lines.Count == 1 ? decimals.Left(line, lettering, x + _columns[column].Width - (Gap / 2)) : start;
            sheet.Text(left, baseLine, line, lettering);
            baseLine += lettering.LineHeight;
        }
    }

    private static XGraphicsPath Outline(Sign sign, double x, double y, Lettering lettering)
    {
        var size = lettering.Size * 0.62;
        var top = y + lettering.Rise - (size * 1.05);
        var path = new XGraphicsPath();
        if (sign == Sign.Disc)
        {
            path.AddEllipse(x, top, size, size);
        }
        else
        {
            path.AddPolygon([new XPoint(x + (size / 2), top), new XPoint(x + size, top + size), new XPoint(x, top + size)]);
        }

        return path;
    }
}
