namespace ParticleLims.Pictures.Drawing;

/// <summary>How large a picture is drawn and how much it says.</summary>
/// <param name="Width">The full width, in pixels on a page or points on paper; at least 120.</param>
/// <param name="Height">The full height in the same unit; at least 100.</param>
/// <param name="TextSize">The size of all text in the same unit.</param>
/// <param name="Compact">Fewer labels, for a narrow screen.</param>
public sealed record PlotLayout(double Width, double Height, double TextSize, bool Compact = false)
{
    /// <summary>For a page on a desk.</summary>
    public static PlotLayout Page { get; } = new(760, 430, 13.5);

    /// <summary>For a narrow column or a phone: still readable at a width of 360 pixels.</summary>
    public static PlotLayout Narrow { get; } = new(360, 320, 14, Compact: true);

    /// <summary>The size of a point's sign.</summary>
    internal double MarkerSize => TextSize * 0.56;

    /// <summary>The height of one line of text with its distance to the next.</summary>
    internal double LineHeight => TextSize * 1.35;
}
