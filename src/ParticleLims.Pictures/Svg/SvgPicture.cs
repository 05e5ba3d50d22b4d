using ParticleLims.Pictures.Drawing;

namespace ParticleLims.Pictures.Svg;

/// <summary>Draws a plot as SVG; the same plot gives the same text on every machine.</summary>
public static class SvgPicture
{
    /// <summary>
    /// An <c>svg</c> element to stand in a page. It shrinks with the place it stands in and follows the page's font, text
    /// colour and the custom properties of <see cref="SvgPalette"/>. Measured points can be hovered and reached by keyboard.
    /// </summary>
    /// <param name="plot">What to draw.</param>
    /// <param name="layout">How large and how detailed.</param>
    /// <param name="id">A name that no other element of the page has: an ASCII letter, then letters, digits, <c>-</c> and <c>_</c>.</param>
    /// <exception cref="ArgumentException">The id has other characters.</exception>
    public static string ForPage(IPlot plot, PlotLayout layout, string id)
    {
        ArgumentNullException.ThrowIfNull(plot);
        ArgumentNullException.ThrowIfNull(layout);
        RefuseBadId(id);
        return Compose(plot, layout, id, ground: string.Empty, font: string.Empty);
    }

    /// <summary>A file of its own: as <see cref="ForPage"/>, with a white ground, dark text and a font of its own.</summary>
    public static string ForFile(IPlot plot, PlotLayout layout)
    {
        ArgumentNullException.ThrowIfNull(plot);
        ArgumentNullException.ThrowIfNull(layout);
        var ground = $"<rect width=\"{SvgText.Number(layout.Width)}\" height=\"{SvgText.Number(layout.Height)}\" fill=\"#FFFFFF\"/>\n";
        return "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n" + Compose(plot, layout, "plot", ground, font: " color=\"#22313A\" font-family=\"Lato, 'Noto Sans', sans-serif\"");
    }

    // An element with role img hides what is inside it, so the readings stand beside the picture and not in it.
    private static string Compose(IPlot plot, PlotLayout layout, string id, string ground, string font)
    {
        var surface = new SvgSurface(id);
        plot.Draw(surface, layout);
        var (width, height) = (SvgText.Number(layout.Width), SvgText.Number(layout.Height));
        return $"""
            <svg xmlns="http://www.w3.org/2000/svg" class="plot" id="{id}" viewBox="0 0 {width} {height}" width="{width}" height="{height}"{font} role="group" aria-labelledby="{id}-title">
            <title id="{id}-title">{SvgText.Escape(plot.Title)}</title>
            <desc id="{id}-desc">{SvgText.Escape(plot.Description)}</desc>
            <style>{SvgPalette.StyleSheet}</style>
            <defs>{surface.Definitions}</defs>
            {ground}<g role="img" aria-labelledby="{id}-title {id}-desc">
            {surface.Picture}</g>
            {surface.Readings}</svg>

            """.ReplaceLineEndings("\n");
    }

    private static void RefuseBadId(string id)
    {
        ArgumentException.ThrowIfNullOrEmpty(id);
        if (!char.IsAsciiLetter(id[0]) || !id.All(letter => char.IsAsciiLetterOrDigit(letter) || letter is '-' or '_'))
        {
            throw new ArgumentException("The id of a picture begins with a letter and has only ASCII letters, digits, '-' and '_'.", nameof(id));
        }
    }
}
