using System.Text;
using UglyToad.PdfPig;
using UglyToad.PdfPig.DocumentLayoutAnalysis.TextExtractor;

namespace ParticleLims.Journeys.Tests;

/// <summary>What a reader finds printed in a PDF.</summary>
public static class PrintedWords
{
    /// <summary>The words of all pages.</summary>
    public static string Of(byte[] pdf)
    {
        using var document = PdfDocument.Open(pdf);
        var text = new StringBuilder();
        foreach (var page in document.GetPages())
        {
            text.AppendLine(ContentOrderTextExtractor.GetText(page));
        }

        return text.ToString();
    }

    /// <summary>Downloads the file behind an element.</summary>
    public static async Task<byte[]> DownloadAsync(Microsoft.Playwright.IPage page, string handle)
    {
        var download = await page.RunAndWaitForDownloadAsync(() => page.At(handle).First.ClickAsync());
        await using var stream = await download.CreateReadStreamAsync();
        using var copy = new MemoryStream();
        await stream.CopyToAsync(copy);
        return copy.ToArray();
    }
}
