using ParticleLims.CertificatePdf.Flow;

namespace ParticleLims.CertificatePdf.Sections;

/// <summary>Where things stand on an A4 page, in points.</summary>
internal static class Paper
{
    public const double Left = 58;

    public const double FirstTop = 30;

    public const double Top = 62;

    public const double Bottom = 794;

    public const double ColumnGap = 18;

    public static double Right { get; } = Sheet.Size.Width - 40;

    public static double Width { get; } = Right - Left;
}
