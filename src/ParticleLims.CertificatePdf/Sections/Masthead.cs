using ParticleLims.CertificatePdf.Flow;
using ParticleLims.Laboratory.Certificates;
using PdfSharp.Drawing;
using PdfSharp.UniversalAccessibility;

namespace ParticleLims.CertificatePdf.Sections;

/// <summary>The top of the first page: who issues, what it is, and what it says in one sentence.</summary>
internal static class Masthead
{
    private static readonly Lettering _issuer = new(11, House.Text, Bold: true);
    private static readonly Lettering _number = new(13, House.Text, Bold: true);
    private static readonly Lettering _conformity = new(9.5, House.Text, Bold: true);
    private static readonly Lettering _warning = new(8, House.DarkOchre, Bold: true);

    public static IEnumerable<Piece> Pieces(CertificateContent content, PaperLayout paper, Logo? logo, Typesetter type, LocalTimes times)
    {
        return
        [
            .. Issuer(content.Issuer, logo, type),
            Title(content, paper.Title(type.Texts), type, times),
            .. paper.Style(type.Texts) is { } style ? Words.Paragraph(type, style, Paper.Left, type.Paper.Width, Lettering.Label, before: 3) : [],
            .. content.Demonstration ? Box(type, type.Texts["demonstration"], _warning, House.OchreTint, House.Ochre) : [],
            .. content.Replaces is { } replaces ? Box(type, type.Texts.With("replaces", replaces), _warning, House.OchreTint, House.Ochre) : [],
            .. Box(type, content.Overall ?? content.Conformity, _conformity, House.Tint, House.Teal),
        ];
    }

    private static List<Piece> Issuer(Party issuer, Logo? logo, Typesetter type)
    {
        var width = type.Paper.Width - (logo is null ? 0 : logo.Width + Paper.ColumnGap);
        string[] address = [.. issuer.Address.Where(line => line.Length > 0), issuer.Contact];
        List<Piece> lines =
        [
            .. Words.Paragraph(type, issuer.Name, Paper.Left, width, _issuer),
            .. Words.Paragraph(type, string.Join("  ·  ", address), Paper.Left, width, Lettering.Label, before: 1),
        ];
        return logo is null ? lines : [Piece.Beside(lines, [logo.Piece(type)])];
    }

    private static Piece Title(CertificateContent content, string title, Typesetter type, LocalTimes times)
    {
        var texts = type.Texts;
        var number = content.Number ?? texts["draft.number"];
        var issued = texts.With(content.Number is null ? "drawn" : "issued", times.At(content.IssuedAt));
        var below = $"{texts.With("revision.capital", content.Revision)}  ·  {issued}";
        var room = type.Paper.Width - type.Width(title, Lettering.Title) - 16;
        var lines = type.Wrap(number, _number, room);
        var height = Math.Max(Lettering.Title.LineHeight, (lines.Count * _number.LineHeight) + Lettering.Label.LineHeight) + 2;
        return new Piece(height, (sheet, y) =>
        {
            using (sheet.Element(PdfBlockLevelElementTag.Heading1))
            {
                sheet.Text(Paper.Left, y + Lettering.Title.Rise + 1, title, Lettering.Title);
            }

            using var paragraph = sheet.Element(PdfBlockLevelElementTag.Paragraph);
            var baseLine = y + _number.Rise;
            foreach (var line in lines)
            {
                sheet.TextEndingAt(type.Paper.Right, baseLine, line, _number);
                baseLine += _number.LineHeight;
            }

            sheet.TextEndingAt(type.Paper.Right, baseLine - _number.Rise + Lettering.Label.Rise + 1, below, Lettering.Label);
        })
        {
            Before = 7,
        };
    }

    /// <summary>A sentence on a tinted ground with a bar at its left.</summary>
    private static IEnumerable<Piece> Box(Typesetter type, string text, Lettering lettering, XColor ground, XColor bar)
    {
        const double Inset = 9;
        const double Padding = 3.4;
        const int MostLines = 30;
        foreach (var slice in type.Wrap(text, lettering, type.Paper.Width - (2 * Inset)).Chunk(MostLines))
        {
            var height = (slice.Length * lettering.LineHeight) + (2 * Padding);
            yield return new Piece(height, (sheet, y) =>
            {
                using (sheet.Artifact())
                {
                    sheet.Box(Paper.Left, y, type.Paper.Width, height, ground);
                    sheet.Box(Paper.Left, y, 2.4, height, bar);
                }

                using var paragraph = sheet.Element(PdfBlockLevelElementTag.Paragraph);
                Words.Lines(sheet, Paper.Left + Inset, y + Padding, slice, lettering);
            })
            {
                Before = 4,
            };
        }
    }
}
