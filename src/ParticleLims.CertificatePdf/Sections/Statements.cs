using System.Globalization;
using ParticleLims.CertificatePdf.Flow;
using ParticleLims.Laboratory.Certificates;

namespace ParticleLims.CertificatePdf.Sections;

/// <summary>How it was tested, by what rule it was judged, and what else the reader has to know.</summary>
internal static class Statements
{
    private const double LabelWidth = 76;

    /// <summary>How the percentages are formed and the runs behind them: what explains the sieve table.</summary>
    public static IEnumerable<Piece> AboutTheSieves(CertificateContent content, Facts facts) =>
    [
        .. facts.Pieces("Basis of percent", [(content.Basis, Lettering.Body)]),
        .. facts.Pieces("Single runs", content.Replicates.Select(run => ($"{run.Run}: {run.Values}", Lettering.Body))),
    ];

    public static IEnumerable<Piece> Pieces(CertificateContent content, Typesetter type)
    {
        var facts = new Facts(type, Paper.Left, Paper.Width, LabelWidth);
        var aboutTheSieves = SievesAndCurve.NotesStandAside(content, type) ? [] : AboutTheSieves(content, facts);
        return
        [
            Words.Heading("Testing and judgement", Paper.Left),
            .. aboutTheSieves,
            .. facts.Pieces("Conditions", [(string.Join(' ', content.Conditions), Lettering.Body)]),
            .. facts.Pieces("Equipment", [(string.Join("; ", content.Equipment), Lettering.Body)]),
            .. facts.Pieces("Decision rule", [(content.DecisionRule, Lettering.Body)]),
            .. facts.Pieces("Remarks", content.Remarks.Select(remark => (remark, Lettering.Strong))),
        ];
    }

    /// <summary>Small print about the document itself.</summary>
    public static IEnumerable<Piece> AboutTheDocument(CertificateContent content, string? contentHash, Typesetter type)
    {
        var head = string.Create(CultureInfo.InvariantCulture, $"Head of the record when this was frozen: event {content.RecordHead.Sequence}, {content.RecordHead.Hash}.");
        var hash = contentHash is null ? string.Empty : $" Hash of the content: {contentHash}.";
        var text = $"{head}{hash} Drawn by {content.SoftwareVersion}, computed by engine {content.EngineVersion}. "
            + $"Times are local ({content.TimeZone}) with their offset from UTC; the decimal sign is a point. "
            + "The results relate only to the items tested. Not to be copied except in full without the issuer's written approval.";
        return Words.Paragraph(type, text, Paper.Left, Paper.Width, Lettering.Small, before: 6);
    }

    public static Piece EndMark(CertificateContent content)
    {
        var text = content.Number is { } number ? $"End of certificate {number}" : "End of draft";
        return new Piece(Lettering.Label.LineHeight + 2, (sheet, y) =>
        {
            var width = sheet.Type.Width(text, Lettering.Label);
            var middle = Paper.Left + (Paper.Width / 2);
            using (sheet.Artifact())
            {
                sheet.Rule(middle - (width / 2) - 46, y + 6, 38, House.Ochre, 0.8);
                sheet.Rule(middle + (width / 2) + 8, y + 6, 38, House.Ochre, 0.8);
            }

            using var paragraph = sheet.Element(PdfSharp.UniversalAccessibility.PdfBlockLevelElementTag.Paragraph);
            sheet.Text(middle - (width / 2), y + Lettering.Label.Rise + 1, text, Lettering.Label);
        })
        {
            Before = 5,
        };
    }
}
