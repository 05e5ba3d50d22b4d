using System.Text;
using ParticleLims.Laboratory.Certificates;
using UglyToad.PdfPig;
using UglyToad.PdfPig.Content;
using UglyToad.PdfPig.Graphics;

namespace ParticleLims.CertificatePdf.Tests;

/// <summary>A drawn certificate read back by another library.</summary>
internal sealed class PrintedPages : IDisposable
{
    private readonly PdfDocument _document;

    public PrintedPages(CertificateContent content, string? contentHash = null, byte[]? logo = null)
    {
        Bytes = Certificates.Writer.Draw(content, contentHash, logo);
        _document = PdfDocument.Open(Bytes);
        Pages = [.. _document.GetPages()];
    }

    public byte[] Bytes { get; }

    public IReadOnlyList<Page> Pages { get; }

    public string Title => _document.Information.Title ?? string.Empty;

    /// <summary>The bytes as Latin letters: the objects of the file outside its compressed streams can be read in them.</summary>
    public string Objects => Encoding.Latin1.GetString(Bytes);

    /// <summary>All text in the order in which it is drawn, white space as single spaces.</summary>
    public string Text => string.Join(' ', Pages.Select(TextOf));

    public static string TextOf(Page page) => string.Join(' ', page.Text.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));

    public static string WithoutSpaces(string text) => string.Concat(text.Where(letter => !char.IsWhiteSpace(letter)));

    public static IReadOnlyList<PdfPath> Paths(Page page) => page.Paths;

    public void Dispose() => _document.Dispose();
}
