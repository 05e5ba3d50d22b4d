using PdfSharp.UniversalAccessibility;

namespace ParticleLims.CertificatePdf.Flow;

/// <summary>Pairs of a label and what it says, one below the other.</summary>
internal sealed class Facts(Typesetter type, double left, double width, double labelWidth)
{
    private const int MostLinesInAPiece = 40;
    private const double Between = 1.8;

    public IEnumerable<Piece> Pieces(IEnumerable<(string Label, string Text)> facts) => facts.SelectMany(fact => Pieces(fact.Label, [(fact.Text, Lettering.Body)]));

    /// <summary>A label with paragraphs beside it; empty ones are left out.</summary>
    public IEnumerable<Piece> Pieces(string label, IEnumerable<(string Text, Lettering Lettering)> paragraphs)
    {
        var lines = paragraphs.Where(paragraph => paragraph.Text.Length > 0)
            .SelectMany(paragraph => type.Wrap(paragraph.Text, paragraph.Lettering, width - labelWidth).Select(line => (Text: line, paragraph.Lettering)))
            .ToList();
        var labels = type.Wrap(label, Lettering.Label, labelWidth - 4);
        for (var from = 0; from < lines.Count; from += MostLinesInAPiece)
        {
            var slice = lines.Skip(from).Take(MostLinesInAPiece).ToList();
            IReadOnlyList<string> heading = from == 0 ? labels : [];
            var height = Math.Max(slice.Sum(line => line.Lettering.LineHeight), heading.Count * Lettering.Label.LineHeight);
            yield return new Piece(height, (sheet, y) => Draw(sheet, y, heading, slice)) { Before = from == 0 ? Between : 0 };
        }
    }

    private void Draw(Sheet sheet, double y, IReadOnlyList<string> heading, List<(string Text, Lettering Lettering)> lines)
    {
        using var paragraph = sheet.Element(PdfBlockLevelElementTag.Paragraph);
        var labelLine = y + Lettering.Body.Rise;
        foreach (var line in heading)
        {
            sheet.Text(left, labelLine, line, Lettering.Label);
            labelLine += Lettering.Label.LineHeight;
        }

        foreach (var (text, lettering) in lines)
        {
            sheet.Text(left + labelWidth, y + lettering.Rise, text, lettering);
            y += lettering.LineHeight;
        }
    }
}
