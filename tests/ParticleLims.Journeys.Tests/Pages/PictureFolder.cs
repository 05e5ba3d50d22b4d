using System.Diagnostics;
using Microsoft.Playwright;

namespace ParticleLims.Journeys.Tests.Pages;

/// <summary>Where pictures go, as <c>tests/pictures</c> wishes; without a wish they go nowhere.</summary>
/// <param name="Folder">The folder, or null.</param>
/// <param name="Everything">Every page on every screen, from top to bottom; else the pictures of the handbook.</param>
public sealed record PictureFolder(string? Folder, bool Everything)
{
    private const int MostBytes = 170_000;

    /// <summary>The wish, from the environment.</summary>
    public static PictureFolder Wished { get; } = new(Environment.GetEnvironmentVariable("PARTICLELIMS_PICTURES"), Environment.GetEnvironmentVariable("PARTICLELIMS_PICTURES_OF") == "all");

    /// <summary>The screens on which a page is looked at: when no picture is wanted, a desk by day, and at night a phone where people use one, else a desk.</summary>
    public IEnumerable<PageView> ViewsOf(ProgramPage page) => Folder is null ? [PageView.Desk, page.OnPhone ? PageView.PhoneDark : PageView.DeskDark]
        : Everything ? [PageView.Desk, PageView.DeskDark, PageView.Phone, PageView.PhoneDark]
        : page.HandbookViews;

    /// <summary>Keeps a picture of what a page shows.</summary>
    /// <exception cref="InvalidOperationException">It is too large for the handbook.</exception>
    public async Task KeepAsync(IPage page, string name)
    {
        if (Folder is null)
        {
            return;
        }

        var file = Path.Combine(Folder, name + ".png");
        var taken = await page.ScreenshotAsync(new PageScreenshotOptions { FullPage = Everything, Animations = ScreenshotAnimations.Disabled, Caret = ScreenshotCaret.Hide });
        var bytes = Everything ? taken : SmallPng.Of(taken);
        await File.WriteAllBytesAsync(file, bytes);
        if (!Everything && bytes.Length > MostBytes)
        {
            throw new InvalidOperationException($"{file} has {bytes.Length} bytes; {MostBytes} is the most.");
        }
    }

    /// <summary>Keeps a picture of the first page of a PDF, drawn by poppler's pdftoppm.</summary>
    /// <exception cref="InvalidOperationException">It could not be drawn.</exception>
    public async Task KeepAsync(byte[] pdf, string name)
    {
        if (Folder is null)
        {
            return;
        }

        var start = new ProcessStartInfo("pdftoppm") { ArgumentList = { "-png", "-singlefile", "-r", "90", "-", Path.Combine(Folder, name) }, UseShellExecute = false, RedirectStandardInput = true };
        using var drawing = Process.Start(start) ?? throw new InvalidOperationException("pdftoppm did not start; install poppler-utils.");
        await drawing.StandardInput.BaseStream.WriteAsync(pdf);
        drawing.StandardInput.Close();
        await drawing.WaitForExitAsync();
        if (drawing.ExitCode == 0)
        {
            var file = Path.Combine(Folder, name + ".png");
            await File.WriteAllBytesAsync(file, SmallPng.Of(await File.ReadAllBytesAsync(file)));
        }
        else
        {
            throw new InvalidOperationException($"pdftoppm ended with {drawing.ExitCode}.");
        }
    }
}
