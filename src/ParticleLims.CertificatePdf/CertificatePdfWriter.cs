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

    /// <summary>The certificate as the bytes of a PDF, without hash and logo.</summary>
    public byte[] Write(CertificateContent content) => Draw(content);

    /// <inheritdoc />
    public byte[] Draw(CertificateContent content, string? contentHash = null, byte[]? logo = null) => Draw(content, contentHash, logo, packed: true).ToArray();

    // Whoever writes the file again afterwards compresses its streams then, once.
    private static ReadOnlySpan<byte> Draw(CertificateContent content, string? contentHash, byte[]? logo, bool packed)
    {
        ArgumentNullException.ThrowIfNull(content);
        LatoFonts.Install();
        using var type = new Typesetter(Paper.Of(content.Paper), CertificateTexts.In(content.Language));
        using var picture = Logo.Of(content, logo);
        var paper = new PaperLayout(content.Layout);
        var pages = Composition.Lay(new Drawn(content, contentHash, paper, picture, type, new LocalTimes(content.TimeZone)));
        using var document = NewDocument(content, paper.Title(type.Texts), type.Texts, packed);
        var structure = UAManager.ForDocument(document);
        structure.SetDocumentLanguage(type.Texts["language.tag"]);
        for (var i = 0; i < pages.Count; i++)
        {
            using var graphics = XGraphics.FromPdfPage(AddPage(document, type.Paper));
            var sheet = new Sheet(graphics, structure.StructureBuilder, type);
            Furniture.DrawUnder(sheet, content, paper.Title(type.Texts), i + 1);
            PlacedPiece.DrawAll(sheet, pages[i]);
            Furniture.DrawFoot(sheet, content, i + 1, pages.Count);
        }

        using var bytes = new MemoryStream(UsualBytes);
        document.Save(bytes, closeStream: false);
        return bytes.GetBuffer().AsSpan(0, (int)bytes.Length);
    }

    /// <inheritdoc />
    public byte[] DrawSealed(CertificateContent content, string twin, byte[]? logo = null)
    {
        ArgumentNullException.ThrowIfNull(content);
        var bytes = Encoding.UTF8.GetBytes(twin);
        var drawn = Draw(content, Convert.ToHexStringLower(SHA256.HashData(bytes)), logo, packed: false);
        return PdfSeal.Seal(drawn, bytes, keys.Current(content.Issuer.Name), new SealParticulars(content.Issuer.Name, content.IssuedAt, FileName(content) + ".json"));
    }

    // A number is made by the laboratory, but a name of a file is the last place to rely on that.
    private static string FileName(CertificateContent content) => string.Concat((content.Number ?? "draft").Select(letter => char.IsAsciiLetterOrDigit(letter) || letter == '-' ? letter : '-'));

    private static PdfDocument NewDocument(CertificateContent content, string title, CertificateTexts texts, bool packed)
    {
        var document = new PdfDocument();
        document.Info.Title = WithoutMarkup(content.Number is { } number ? $"{title} {number}" : $"{title}, {texts["draft.title"]}");
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
