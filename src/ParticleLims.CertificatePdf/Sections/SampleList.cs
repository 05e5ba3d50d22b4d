using ParticleLims.CertificatePdf.Flow;
using ParticleLims.Laboratory.Certificates;
using PdfSharp.UniversalAccessibility;

namespace ParticleLims.CertificatePdf.Sections;

/// <summary>Several samples on one certificate: the list at its beginning, and where each begins.</summary>
internal static class SampleList
{
    private const double NumberWidth = 20;
    private static readonly Lettering _heading = new(11, House.Teal, Bold: true);

    /// <summary>Which samples of which lots the certificate speaks of, a line each.</summary>
    public static IEnumerable<Piece> Pieces(IReadOnlyList<CertificateItem> items, PaperLayout paper, Typesetter type)
    {
        var texts = type.Texts;
        var withQuantity = paper.Prints("quantity");
        List<Column> columns =
        [
            new(texts["column.number"], NumberWidth, Setting.Number, Lettering.Body),
            new(texts["lot"], 92, Setting.Text, Lettering.Strong) { Inset = 8 },
            new(texts["sample"], 84, Setting.Text, Lettering.Body),
            .. withQuantity ? [new Column(texts["quantity"], 62, Setting.Text, Lettering.Body)] : Array.Empty<Column>(),
        ];
        columns.Insert(3, new Column(texts["product"], type.Paper.Width - columns.Sum(column => column.Width), Setting.Text, Lettering.Body));
        var rows = items.Select((item, i) => (IReadOnlyList<Cell>)
            [new($"{i + 1}"), new(item.Product.LotNumber), new(item.Sample.Code), new($"{item.Product.Code}  {item.Product.Name}"), .. withQuantity ? [new Cell(item.Product.Quantity ?? "–")] : Array.Empty<Cell>()]).ToList();
        return [Words.Heading(texts["samples"], Paper.Left), .. new Table(type, Paper.Left, columns, rows).Pieces()];
    }

    /// <summary>The beginning of a sample's part.</summary>
    public static Piece Heading(CertificateItem item, int number, int count, Typesetter type)
    {
        var lines = type.Wrap(type.Texts.With("part", number, count, item.Product.LotNumber, item.Sample.Code), _heading, type.Paper.Width);
        var height = 5 + (lines.Count * _heading.LineHeight);
        return new Piece(height, (sheet, y) =>
        {
            using (sheet.Artifact())
            {
                sheet.Rule(Paper.Left, y + 1, type.Paper.Width, House.Teal, 0.8);
            }

            using var heading = sheet.Element(PdfBlockLevelElementTag.Heading2);
            Words.Lines(sheet, Paper.Left, y + 5, lines, _heading);
        })
        {
            Before = 16, KeepWithNext = true,
        };
    }

    /// <summary>What is stated of the sample.</summary>
    public static IEnumerable<Piece> Statement(CertificateItem item, Typesetter type) =>
        Words.Paragraph(type, item.Conformity, Paper.Left, type.Paper.Width, Lettering.Strong).Select(piece => piece with { KeepWithNext = true });
}
