using System.Security.Cryptography;
using System.Text;
using ParticleLims.CertificatePdf.Flow;
using ParticleLims.CertificatePdf.Fonts;
using ParticleLims.CertificatePdf.Sealing;
using ParticleLims.CertificatePdf.Sections;
using ParticleLims.Laboratory.Certificates;
using ParticleLims.Laboratory.Certificates.Texts;
using PdfSharp.Drawing;
using PdfSharp.Events;
using PdfSharp.Pdf;
using PdfSharp.UniversalAccessibility;

namespace ParticleLims.CertificatePdf;

/// <summary>
/// Draws certificates as PDF on A4 or Letter: laid out first and drawn second, with embedded fonts, text that can be selected, the curve as vectors, and a
/// structure for screen readers. Safe to use from several threads at once.
/// </summary>
/// <param name="keys">The keys by which an issued certificate is sealed.</param>
public sealed class CertificatePdfWriter(SealKeys keys) : ICertificateDrawing
{
    // Uncompressed, of one page with its fonts; it grows where that is too little.
    private const int UsualBytes = 256 * 1024;

    /// <inheritdoc cref="Draw(CertificateContent, string?)" />
    public byte[] Write(CertificateContent content) => Draw(content);

    /// <inheritdoc />
    public byte[] Draw(CertificateContent content, string? contentHash = null) => Draw(content, contentHash, packed: true).ToArray();

    // Whoever writes the file again afterwards compresses its streams then, once.
    private static ReadOnlySpan<byte> Draw(CertificateContent content, string? contentHash, bool packed)
    {
        ArgumentNullException.ThrowIfNull(content);
        LatoFonts.Install();
        using var type = new Typesetter(Paper.Of(content.Paper), CertificateTexts.In(content.Language));
        var pages = Lay(content, contentHash, type, new LocalTimes(content.TimeZone));
        using var document = NewDocument(content, type.Texts, packed);
        var structure = UAManager.ForDocument(document);
        structure.SetDocumentLanguage(type.Texts["language.tag"]);
        for (var i = 0; i < pages.Count; i++)
        {
            using var graphics = XGraphics.FromPdfPage(AddPage(document, type.Paper));
            var sheet = new Sheet(graphics, structure.StructureBuilder, type);
            Furniture.DrawUnder(sheet, content, i + 1);
            PlacedPiece.DrawAll(sheet, pages[i]);
            Furniture.DrawFoot(sheet, content, i + 1, pages.Count);
        }

        using var bytes = new MemoryStream(UsualBytes);
        document.Save(bytes, closeStream: false);
        return bytes.GetBuffer().AsSpan(0, (int)bytes.Length);
    }

    /// <inheritdoc />
    public byte[] DrawSealed(CertificateContent content, string twin)
    {
        ArgumentNullException.ThrowIfNull(content);
        var bytes = Encoding.UTF8.GetBytes(twin);
        var drawn = Draw(content, Convert.ToHexStringLower(SHA256.HashData(bytes)), packed: false);
        return PdfSeal.Seal(drawn, bytes, keys.Current(content.Issuer.Name), new SealParticulars(content.Issuer.Name, content.IssuedAt, FileName(content) + ".json"));
    }

    // A number is made by the laboratory, but a name of a file is the last place to rely on that.
    private static string FileName(CertificateContent content) => string.Concat((content.Number ?? "draft").Select(letter => char.IsAsciiLetterOrDigit(letter) || letter == '-' ? letter : '-'));

    /// <summary>The curve takes what the rest leaves free on a single page; where that is too little, there are more pages.</summary>
    private static IReadOnlyList<IReadOnlyList<PlacedPiece>> Lay(CertificateContent content, string? contentHash, Typesetter type, LocalTimes times)
    {
        // All but the curve is set once, whatever height the curve takes in the end.
        List<Func<double, IEnumerable<Piece>>> parts =
        [
            Set(Masthead.Pieces(content, type, times)),
            .. content.Further is null ? OfItem(content, content.Items[0], content.Customer, type, times) : Several(content, type, times),
            Set([.. Signatures.Pieces(content, type, times), .. Statements.AboutTheDocument(content, contentHash, type), Statements.EndMark(content, type)]),
        ];
        var pages = At(SievesAndCurve.LeastHeight);
        if (pages.Count > 1)
        {
            return pages;
        }

        var free = type.Paper.Bottom - Pagination.EndOf(pages[0]);
        var larger = At(Math.Min(SievesAndCurve.LeastHeight + free, SievesAndCurve.MostHeight));
        return larger.Count == 1 ? larger : pages;

        IReadOnlyList<IReadOnlyList<PlacedPiece>> At(double curveHeight) => Pagination.Lay([.. parts.SelectMany(part => part(curveHeight))], Paper.FirstTop, Paper.Top, type.Paper.Bottom);
    }

    private static Func<double, IEnumerable<Piece>> Set(IEnumerable<Piece> pieces)
    {
        List<Piece> set = [.. pieces];
        return _ => set;
    }

    private static IEnumerable<Func<double, IEnumerable<Piece>>> Several(CertificateContent content, Typesetter type, LocalTimes times) =>
    [
        Set([.. Particulars.Customer(content.Customer, type), .. SampleList.Pieces(content.Items, type)]),
        .. content.Items.SelectMany((item, i) => (IEnumerable<Func<double, IEnumerable<Piece>>>)[Set([SampleList.Heading(item, i + 1, content.Items.Count, type), .. SampleList.Statement(item, type)]), .. OfItem(content, item, null, type, times)]),
    ];

    private static IEnumerable<Func<double, IEnumerable<Piece>>> OfItem(CertificateContent content, CertificateItem item, Party? customer, Typesetter type, LocalTimes times)
    {
        var aside = SievesAndCurve.AsideOf(item, type);
        return
        [
            Set([.. Particulars.Pieces(item, customer, type, times), .. ResultsTable.Pieces(item.Results, type)]),
            curveHeight => SievesAndCurve.Pieces(item, type, aside, curveHeight),
            Set([.. content.RosinRammlerNet ? SievesAndCurve.Net(item, type) : [], .. Statements.Pieces(item, type, aside.WithNotes)]),
        ];
    }

    private static PdfDocument NewDocument(CertificateContent content, CertificateTexts texts, bool packed)
    {
        var document = new PdfDocument();
        document.Info.Title = WithoutMarkup(content.Number is { } number ? $"{texts["title"]} {number}" : $"{texts["title"]}, {texts["draft.title"]}");
        document.Info.Creator = "ParticleLims";
        document.Info.CreationDate = content.IssuedAt.UtcDateTime;
        (document.Options.CompressContentStreams, document.Options.NoCompression) = (packed, !packed);
        document.ViewerPreferences.DisplayDocTitle = true;
        document.RenderEvents.RenderTextEvent += RefuseMissingLetters;
        return document;
    }

    private static PdfPage AddPage(PdfDocument document, Paper paper)
    {
        var page = document.AddPage();
        (page.Width, page.Height) = (XUnit.FromPoint(paper.Size.Width), XUnit.FromPoint(paper.Size.Height));
        return page;
    }

    // The library writes the title into XML unescaped.
    private static string WithoutMarkup(string text) => string.Concat(Typesetter.Printable(text).Where(letter => letter is not ('<' or '>' or '&')));

    // A letter that the font lacks would be drawn as an empty box without a word.
    private static void RefuseMissingLetters(object sender, RenderTextEventArgs e)
    {
        foreach (var pair in e.CodePointGlyphIndexPairs)
        {
            if (pair.GlyphIndex == 0)
            {
                var text = string.Concat(e.CodePointGlyphIndexPairs.Select(each => char.ConvertFromUtf32(each.CodePoint))).Trim();
                throw new CertificateNotPrintableException(
                    $"The letter '{char.ConvertFromUtf32(pair.CodePoint)}' (U+{pair.CodePoint:X4}) in '{text}' is not in the certificate's font. Write the text with Latin, Greek or Cyrillic letters.");
            }
        }
    }
}
