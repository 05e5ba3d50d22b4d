using System.Globalization;
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

    public static void DrawUnder(Sheet sheet, CertificateContent content, int page)
    {
        using var artifact = sheet.Artifact();
        if (content.Number is null)
        {
            sheet.Across("DRAFT", _draft);
        }

        sheet.Box(RuleLeft, 0, 5, Sheet.Size.Height, House.Teal);
        sheet.Box(RuleLeft, page == 1 ? 66 : 34, 5, page == 1 ? 28 : 14, House.Ochre);
        if (page > 1)
        {
            DrawHead(sheet, content);
        }
    }

    public static void DrawFoot(Sheet sheet, CertificateContent content, int page, int pages)
    {
        using var artifact = sheet.Artifact();
        sheet.Rule(Paper.Left, 802, Paper.Width, House.Hair);
        var number = content.Number ?? "Draft, not issued";
        var left = string.Create(CultureInfo.InvariantCulture, $"{Cut(sheet, number, 200)}, revision {content.Revision}");
        sheet.Text(Paper.Left, 813, left, _foot);
        sheet.TextEndingAt(Paper.Right, 813, string.Create(CultureInfo.InvariantCulture, $"page {page} of {pages}"), _foot);
        if (content.Demonstration)
        {
            const string Text = "Demonstration laboratory – not a real certificate";
            sheet.Text(Paper.Left + ((Paper.Width - sheet.Type.Width(Text, _demonstration)) / 2), 813, Text, _demonstration);
        }
    }

    private static void DrawHead(Sheet sheet, CertificateContent content)
    {
        sheet.Text(Paper.Left, 43, "Certificate of analysis", _foot);
        sheet.TextEndingAt(Paper.Right, 43, Cut(sheet, Typesetter.Printable($"{content.Product.Code}, lot {content.Product.LotNumber}"), 330), Lettering.Label);
        sheet.Rule(Paper.Left, 49, Paper.Width, House.Hair);
    }

    /// <summary>Heads and feet repeat what stands elsewhere in full, so here a long text may be cut.</summary>
    private static string Cut(Sheet sheet, string text, double width)
    {
        var first = sheet.Type.Wrap(text, _foot, width);
        return first.Count == 1 ? first[0] : first[0] + " …";
    }
}
