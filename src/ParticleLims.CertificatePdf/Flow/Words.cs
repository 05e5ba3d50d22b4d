using PdfSharp.UniversalAccessibility;

namespace ParticleLims.CertificatePdf.Flow;

/// <summary>Headings and paragraphs.</summary>
internal static class Words
{
    private const int MostLinesInAPiece = 40;

    public static Piece Heading(string text, double left, double before = 8) => new(Lettering.Heading.LineHeight + 2.5, (sheet, y) =>
    {
        using var heading = sheet.Element(PdfBlockLevelElementTag.Heading2);
        sheet.Text(left, y + Lettering.Heading.Rise, Typesetter.Printable(text), Lettering.Heading);
    })
    {
        Before = before,
        KeepWithNext = true,
    };

    public static IEnumerable<Piece> Paragraph(Typesetter type, string text, double left, double width, Lettering lettering, double before = 2)
    {
        var lines = type.Wrap(text, lettering, width);
        for (var from = 0; from < lines.Count; from += MostLinesInAPiece)
        {
            var slice = lines.Skip(from).Take(MostLinesInAPiece).ToList();
            yield return new Piece(slice.Count * lettering.LineHeight, (sheet, y) =>
            {
                using var paragraph = sheet.Element(PdfBlockLevelElementTag.Paragraph);
                Lines(sheet, left, y, slice, lettering);
            })
            {
                Before = from == 0 ? before : 0,
            };
        }
    }

    public static void Lines(Sheet sheet, double left, double y, IEnumerable<string> lines, Lettering lettering)
    {
        foreach (var line in lines)
        {
            sheet.Text(left, y + lettering.Rise, line, lettering);
            y += lettering.LineHeight;
        }
    }
}
