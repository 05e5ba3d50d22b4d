using PdfSharp.Fonts;

namespace ParticleLims.CertificatePdf.Fonts;

/// <summary>The fonts of the paper, carried in the program: the same certificate looks the same on every machine.</summary>
internal sealed class LatoFonts : IFontResolver
{
    public const string Family = "Lato";

    private static readonly Lock _lock = new();

    /// <summary>The library keeps one font resolver for the whole process; this makes it ours, once.</summary>
    /// <exception cref="InvalidOperationException">Somebody else has already installed another resolver.</exception>
    public static void Install()
    {
        lock (_lock)
        {
            GlobalFontSettings.FontResolver ??= new LatoFonts();
            if (GlobalFontSettings.FontResolver is not LatoFonts)
            {
                throw new InvalidOperationException("Another font resolver is installed in this process; certificates are drawn in their own fonts only.");
            }
        }
    }

    public FontResolverInfo? ResolveTypeface(string familyName, bool bold, bool italic) => familyName != Family ? null : new FontResolverInfo((bold, italic) switch
    {
        (true, _) => "Lato-Bold",
        (false, true) => "Lato-Italic",
        _ => "Lato-Regular",
    });

    public byte[] GetFont(string faceName)
    {
        using var stream = typeof(LatoFonts).Assembly.GetManifestResourceStream(typeof(LatoFonts), faceName + ".ttf")
            ?? throw new InvalidOperationException($"The font {faceName} is missing from the program.");
        var bytes = new byte[stream.Length];
        stream.ReadExactly(bytes);
        return bytes;
    }
}
