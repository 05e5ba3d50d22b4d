namespace ParticleLims.Pictures.Drawing;

/// <summary>
/// How wide a text is, roughly. A browser is free in its choice of font, so a plot places its labels by this one estimate
/// on every surface; it errs to the wide side.
/// </summary>
internal static class TextExtent
{
    public static double Width(string text, double size) => text.Sum(WidthInEm) * size;

    public static PlotArea Box(PlotPoint at, string text, PlotText style)
    {
        var width = Width(text, style.Size);
        var left = style.Anchor switch
        {
            PlotAnchor.Middle => at.X - (width / 2),
            PlotAnchor.End => at.X - width,
            _ => at.X,
        };
        return new PlotArea(left, at.Y - (style.Size * 0.8), width, style.Size * 1.05);
    }

    private static double WidthInEm(char letter) => letter switch
    {
        ' ' or '.' or ',' or ':' or ';' or '\'' or 'i' or 'j' or 'l' or 'I' or '|' or '(' or ')' => 0.3,
        'f' or 'r' or 't' or '-' or '/' => 0.4,
        'm' or 'w' or 'M' or 'W' or '%' or '—' => 0.86,
        >= '0' and <= '9' => 0.58,
        >= 'A' and <= 'Z' => 0.68,
        _ => 0.56,
    };
}
