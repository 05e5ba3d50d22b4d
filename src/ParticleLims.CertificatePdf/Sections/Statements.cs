using ParticleLims.CertificatePdf.Flow;
using ParticleLims.Laboratory.Certificates;
using ParticleLims.Laboratory.Certificates.Texts;

namespace ParticleLims.CertificatePdf.Sections;

/// <summary>How it was tested, by what rule it was judged, and what else the reader has to know.</summary>
internal static class Statements
{
    private const double LabelWidth = 76;

    /// <summary>So many digits of the record's head are enough to find it by; all of them stand in the twin.</summary>
    private const int ShortHash = 16;

    /// <summary>How the percentages are formed and the runs behind them: what explains the sieve table.</summary>
    public static IEnumerable<Piece> AboutTheSieves(CertificateItem item, PaperLayout paper, Facts facts, CertificateTexts texts) =>
    [
        .. facts.Pieces(texts["basis"], [(item.Basis, Lettering.Body)]),
        .. facts.Pieces(texts["runs"], (paper.Prints("singleRuns") ? item.Replicates : []).Select(run => ($"{run.Run}: {run.Values}", Lettering.Body))),
    ];

    public static IEnumerable<Piece> Pieces(CertificateItem item, PaperLayout paper, Typesetter type, bool notesStandAside)
    {
        var facts = new Facts(type, Paper.Left, type.Paper.Width, LabelWidth);
        var aboutTheSieves = notesStandAside ? [] : AboutTheSieves(item, paper, facts, type.Texts);
        return
        [
            Words.Heading(type.Texts["testing"], Paper.Left),
            .. aboutTheSieves,
            .. paper.Prints("conditions") ? facts.Pieces(type.Texts["conditions"], [(string.Join(' ', item.Conditions), Lettering.Body)]) : [],
            .. paper.Prints("equipment") ? facts.Pieces(type.Texts["equipment"], [(string.Join("; ", item.Equipment), Lettering.Body)]) : [],
            .. facts.Pieces(type.Texts["rule"], [(item.DecisionRule, Lettering.Body)]),
            .. facts.Pieces(type.Texts["remarks"], item.Remarks.Select(remark => (remark, Lettering.Strong))),
        ];
    }

    /// <summary>Small print about the document itself.</summary>
    public static IEnumerable<Piece> AboutTheDocument(CertificateContent content, string? contentHash, PaperLayout paper, Typesetter type)
    {
        var (texts, head) = (type.Texts, content.RecordHead);
        string[] sentences =
        [
            texts.With("about.head", head.Sequence, paper.Prints("wholeHeadHash") || head.Hash.Length <= ShortHash ? head.Hash : head.Hash[..ShortHash] + "…"), .. contentHash is null ? [] : new[] { texts.With("about.hash", contentHash) },
            texts.With("about.drawn", content.SoftwareVersion, content.EngineVersion),
            .. paper.Layout is { } layout ? new[] { texts.With("about.template", layout.Template, layout.Version) } : [], texts.With("about.times", content.TimeZone), texts["about.items"], texts["about.customer"],
            .. paper.Layout?.Accreditation is null ? new[] { texts["about.accreditation"] } : [],
        ];
        return Words.Paragraph(type, string.Join(' ', sentences), Paper.Left, type.Paper.Width, Lettering.Small, before: 6);
    }

    public static Piece EndMark(CertificateContent content, Typesetter type)
    {
        var text = Typesetter.Printable(content.Number is { } number ? type.Texts.With("end", number) : type.Texts["end.draft"]);
        return new Piece(Lettering.Label.LineHeight + 2, (sheet, y) =>
        {
            var width = sheet.Type.Width(text, Lettering.Label);
            var middle = Paper.Left + (type.Paper.Width / 2);
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
