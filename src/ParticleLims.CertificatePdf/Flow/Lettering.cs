using PdfSharp.Drawing;

namespace ParticleLims.CertificatePdf.Flow;

/// <summary>How a text looks: size in points, weight, slant and colour.</summary>
internal sealed record Lettering(double Size, XColor Colour, bool Bold = false, bool Italic = false)
{
    public static Lettering Body { get; } = new(8, House.Text);

    public static Lettering Strong { get; } = Body with { Bold = true };

    public static Lettering Label { get; } = new(7, House.Muted);

    public static Lettering Small { get; } = new(6.6, House.Muted);

    public static Lettering Heading { get; } = new(9.5, House.Teal, Bold: true);

    public static Lettering Title { get; } = new(21, House.Teal, Bold: true);

    public double LineHeight => Size * 1.28;

    /// <summary>From the upper edge of a line to its base line.</summary>
    public double Rise => Size * 0.96;
}

/// <summary>The colours of the paper: a deep teal-blue, an ochre for what asks for attention, and greys between.</summary>
internal static class House
{
    public static XColor Teal { get; } = XColor.FromArgb(0x1F, 0x4E, 0x5F);

    public static XColor Ochre { get; } = XColor.FromArgb(0xB7, 0x79, 0x1F);

    public static XColor DarkOchre { get; } = XColor.FromArgb(0x8A, 0x57, 0x0F);

    public static XColor Text { get; } = XColor.FromArgb(0x22, 0x31, 0x3A);

    public static XColor Muted { get; } = XColor.FromArgb(0x56, 0x66, 0x6E);

    public static XColor Hair { get; } = XColor.FromArgb(0xC4, 0xCF, 0xD4);

    public static XColor Tint { get; } = XColor.FromArgb(0xEF, 0xF4, 0xF6);

    public static XColor OchreTint { get; } = XColor.FromArgb(0xFB, 0xF3, 0xE4);

    public static XColor Ghost { get; } = XColor.FromArgb(0xE7, 0xEB, 0xED);
}
