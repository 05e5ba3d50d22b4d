using ParticleLims.CertificatePdf.Flow;
using ParticleLims.Laboratory.Certificates;
using PdfSharp.UniversalAccessibility;

namespace ParticleLims.CertificatePdf.Sections;

/// <summary>Who signed, with what meaning, when; and the code by which anybody can check the certificate.</summary>
internal static class Signatures
{
    private const double QrSide = 64;
    private const double QrColumn = 172;
    private const double ColumnGap = 12;
    private const int RowsAsideTheCode = 3;

    public static IEnumerable<Piece> Pieces(CertificateContent content, Typesetter type, LocalTimes times)
    {
        var width = content.VerifyAddress is null ? type.Paper.Width : type.Paper.Width - QrColumn - Paper.ColumnGap;
        var inARow = content.Signatures.Count > 2 ? 3 : 2;
        var rows = content.Signatures.Chunk(inARow).Select(row => Row(row, inARow, width, type, times)).ToList();
        if (rows.Count == 0)
        {
            rows.AddRange(Words.Paragraph(type, type.Texts["unsigned"], Paper.Left, width, Lettering.Strong));
        }

        IReadOnlyList<Piece> code = content.VerifyAddress is { } address ? [Code(address, type)] : [];
        var aside = rows.Take(RowsAsideTheCode).ToList();
        return [Words.Heading(type.Texts["signatures"], Paper.Left), Piece.Beside(aside, code), .. rows.Skip(RowsAsideTheCode)];
    }

    private static Piece Row(SignatureLine[] row, int inARow, double width, Typesetter type, LocalTimes times)
    {
        var column = (width - ((inARow - 1) * ColumnGap)) / inARow;
        var texts = row.Select(signature => Texts(signature, column, type, times)).ToList();
        var height = texts.Max(lines => lines.Sum(line => line.Lettering.LineHeight)) + 4;
        return new Piece(height, (sheet, y) =>
        {
            for (var i = 0; i < texts.Count; i++)
            {
                var left = Paper.Left + (i * (column + ColumnGap));
                using (sheet.Artifact())
                {
                    sheet.Rule(left, y + 2, column, House.Teal, 0.8);
                }

                using var paragraph = sheet.Element(PdfBlockLevelElementTag.Paragraph);
                var top = y + 4;
                foreach (var (text, lettering) in texts[i])
                {
                    sheet.Text(left, top + lettering.Rise, text, lettering);
                    top += lettering.LineHeight;
                }
            }
        })
        {
            Before = 6,
        };
    }

    private static List<(string Text, Lettering Lettering)> Texts(SignatureLine signature, double width, Typesetter type, LocalTimes times)
    {
        (string Text, Lettering Lettering)[] paragraphs =
        [
            (WithCapital(signature.Meaning), Lettering.Strong with { Colour = House.Teal }), (signature.PrintedName, Lettering.Strong), (signature.Function, Lettering.Body),
            (times.At(signature.At), Lettering.Label),
        ];
        return [.. paragraphs.Where(paragraph => paragraph.Text.Length > 0).SelectMany(paragraph => type.Wrap(paragraph.Text, paragraph.Lettering, width).Select(line => (line, paragraph.Lettering)))];
    }

    private static string WithCapital(string text) => text.Length == 0 ? text : char.ToUpperInvariant(text[0]) + text[1..];

    private static Piece Code(string address, Typesetter type)
    {
        var left = type.Paper.Right - QrColumn;
        var lines = type.Wrap(address, Lettering.Small, QrColumn - QrSide - 4);
        var height = Math.Max(QrSide, Lettering.Strong.LineHeight + (lines.Count * Lettering.Small.LineHeight) + 6);
        return new Piece(height, (sheet, y) =>
        {
            using (sheet.Figure(type.Texts.With("qr", Typesetter.Printable(address)), left, y, QrSide, QrSide))
            {
                sheet.Fill(QrDrawing.Outline(address, left, y, QrSide), House.Text);
            }

            using var paragraph = sheet.Element(PdfBlockLevelElementTag.Paragraph);
            sheet.Text(left + QrSide + 4, y + 4 + Lettering.Strong.Rise, type.Texts["genuine"], Lettering.Strong);
            Words.Lines(sheet, left + QrSide + 4, y + 5 + Lettering.Strong.LineHeight, lines, Lettering.Small);
        });
    }
}
