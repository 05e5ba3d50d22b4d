using PdfSharp.Drawing;

namespace ParticleLims.CertificatePdf.Flow;

/// <summary>A sheet and where things stand on it, in points.</summary>
internal sealed class Paper(XSize size)
{
    public const double Left = 58;

    public const double FirstTop = 30;

    public const double Top = 62;

    public const double ColumnGap = 18;

    /// <summary>210 by 297 mm (ISO 216).</summary>
    public static Paper A4 { get; } = new(new XSize(595.276, 841.89));

    /// <summary>8.5 by 11 inches.</summary>
    public static Paper Letter { get; } = new(new XSize(612, 792));

    public XSize Size => size;

    public double Right => size.Width - 40;

    public double Width => Right - Left;

    public double Bottom => size.Height - 47.89;

    /// <summary>The sheet of a name; A4 for any other.</summary>
    public static Paper Of(string name) => name == "Letter" ? Letter : A4;
}
