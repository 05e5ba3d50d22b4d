using ParticleLims.CertificatePdf.Flow;
using ParticleLims.Laboratory.Certificates;

namespace ParticleLims.CertificatePdf.Sections;

/// <summary>What stands on every page: the rule at the left, the head from the second page on, the foot, and the mark of a draft.</summary>
internal static class Furniture
{
    private const double RuleLeft = 30;
    private static readonly Lettering _draft = new(150, House.Ghost, Bold: true);
    private static readonly Lettering _foot = Lettering.Label with { Bold = true, Colour = House.Teal };
    private static readonly Lettering _demonstration = Lettering.Label with { Bold = true, Colour = House.DarkOchre };

    public static void DrawUnder(Sheet sheet, CertificateContent content, string title, int page)
    {
        using var artifact = sheet.Artifact();
        if (content.Number is null)
        {
            sheet.Across(sheet.Type.Texts["draft.mark"], _draft);
        }

        sheet.Box(RuleLeft, 0, 5, sheet.Size.Height, House.Teal);
        sheet.Box(RuleLeft, page == 1 ? 66 : 34, 5, page == 1 ? 28 : 14, House.Ochre);
        if (page > 1)
        {
            DrawHead(sheet, content, title);
        }
    }

    public static void DrawFoot(Sheet sheet, CertificateContent content, int page, int pages)
    {
        using var artifact = sheet.Artifact();
        var (texts, paper) = (sheet.Type.Texts, sheet.Type.Paper);
        var line = paper.Bottom + 19;
        sheet.Rule(Paper.Left, paper.Bottom + 8, paper.Width, House.Hair);
        var number = content.Number ?? texts["draft.number"];
        sheet.Text(Paper.Left, line, $"{Cut(sheet, number, 160)}, {texts.With("revision", content.Revision)}", _foot);
        sheet.TextEndingAt(paper.Right, line, texts.With("page", page, pages), _foot);
        if (content.Demonstration)
        {
            var text = texts["demonstration"];
            sheet.Text(Paper.Left + ((paper.Width - sheet.Type.Width(text, _demonstration)) / 2), line, text, _demonstration);
        }
    }

    private static void DrawHead(Sheet sheet, CertificateContent content, string title)
    {
        sheet.Text(Paper.Left, 43, title, _foot);
        sheet.TextEndingAt(sheet.Type.Paper.Right, 43, Cut(sheet, Typesetter.Printable(string.Join(", ", content.Items.Select(item => sheet.Type.Texts.With("lot.short", item.Product.Code, item.Product.LotNumber)))), 330), Lettering.Label);
        sheet.Rule(Paper.Left, 49, sheet.Type.Paper.Width, House.Hair);
    }

    /// <summary>Heads and feet repeat what stands elsewhere in full, so here a long text may be cut.</summary>
    private static string Cut(Sheet sheet, string text, double width)
    {
        var first = sheet.Type.Wrap(text, _foot, width);
        return first.Count == 1 ? first[0] : first[0] + " …";
    }
}
