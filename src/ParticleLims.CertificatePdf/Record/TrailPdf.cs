using ParticleLims.CertificatePdf.Flow;
using ParticleLims.CertificatePdf.Fonts;
using ParticleLims.Laboratory.Certificates.Texts;
using PdfSharp.Drawing;
using PdfSharp.Pdf;
using PdfSharp.UniversalAccessibility;

namespace ParticleLims.CertificatePdf.Record;

/// <summary>Prints a part of the audit trail on A4 across, for an inspector: text that can be selected, and a structure for screen readers.</summary>
public static class TrailPdf
{
    /// <summary>The most events of one file, some hundred pages: more are read better by a program, and drawing them would keep a browser waiting.</summary>
    public const int MostEvents = 500;

    private static readonly Paper Across = new(new XSize(841.89, 595.276));
    private static readonly Lettering Text = new(7, House.Text);

    /// <summary>Draws it.</summary>
    public static byte[] Draw(Trail trail)
    {
        ArgumentNullException.ThrowIfNull(trail);
        LatoFonts.Install();
        using var type = new Typesetter(Across, CertificateTexts.In("en"));
        var pages = Pagination.Lay([.. Pieces(trail, type)], Paper.Top, Paper.Top, Across.Bottom);
        using var document = new PdfDocument();
        document.Info.Title = "Audit trail";
        document.Info.Creator = "ParticleLims";
        document.Options.CompressContentStreams = true;
        document.ViewerPreferences.DisplayDocTitle = true;
        var structure = UAManager.ForDocument(document);
        structure.SetDocumentLanguage("en");
        for (var number = 0; number < pages.Count; number++)
        {
            var page = document.AddPage();
            (page.Width, page.Height) = (XUnit.FromPoint(Across.Size.Width), XUnit.FromPoint(Across.Size.Height));
            using var graphics = XGraphics.FromPdfPage(page);
            var sheet = new Sheet(graphics, structure.StructureBuilder, type);
            DrawAround(sheet, trail, number + 1, pages.Count);
            PlacedPiece.DrawAll(sheet, pages[number]);
        }

        using var bytes = new MemoryStream();
        document.Save(bytes, closeStream: false);
        return bytes.ToArray();
    }

    private static IEnumerable<Piece> Pieces(Trail trail, Typesetter type) =>
    [
        Words.Heading($"Audit trail: {trail.Asked}", Paper.Left, before: 0),
        .. Words.Paragraph(type, FormattableString.Invariant($"{trail.Laboratory}. {trail.Rows.Count} events, newest first. Printed {trail.PrintedAt}; times are in {trail.TimeZone}. ")
            + "The number and the first sixteen digits of its hash name each event; JSON has the whole hashes, by which the chain can be checked. A letter that the font lacks is drawn as a box; CSV and JSON have it.",
            Paper.Left, Across.Width, Text, before: 3),
        .. trail.Rows.Count == 0 ? Words.Paragraph(type, "Nothing is recorded for this question.", Paper.Left, Across.Width, Text, before: 8) : Rows(trail, type),
    ];

    private static IReadOnlyList<Piece> Rows(Trail trail, Typesetter type)
    {
        var rest = Across.Width - 52 - 58 - 92 - 132 - 112;
        Column[] columns =
        [
            new("No., hash", 52, Setting.Text, Text), new("When", 58, Setting.Text, Text), new("Who, where", 92, Setting.Text, Text), new("What", 132, Setting.Text, Text), new("About", 112, Setting.Text, Text),
            new("Old and new values", rest, Setting.Text, Text),
        ];
        return new Table(type, Paper.Left, columns, [.. trail.Rows.Select(IReadOnlyList<Cell> (row) =>
            [new Cell($"{row.Number} {row.Hash[..Math.Min(16, row.Hash.Length)]}"), new Cell(row.When), new Cell(row.Who), new Cell(row.What), new Cell(row.About), new Cell(row.Values.Length == 0 ? "none" : row.Values)])]).Pieces();
    }

    private static void DrawAround(Sheet sheet, Trail trail, int page, int pages)
    {
        using var artifact = sheet.Artifact();
        var line = Across.Bottom + 19;
        sheet.Rule(Paper.Left, 49, Across.Width, House.Hair);
        sheet.Text(Paper.Left, 43, Typesetter.Printable(trail.Laboratory), Lettering.Label);
        sheet.TextEndingAt(Across.Right, 43, trail.Demonstration ? "Demonstration – invented data" : "Audit trail", Lettering.Label);
        sheet.Rule(Paper.Left, Across.Bottom + 8, Across.Width, House.Hair);
        sheet.TextEndingAt(Across.Right, line, FormattableString.Invariant($"Page {page} of {pages}"), Lettering.Label);
    }
}
