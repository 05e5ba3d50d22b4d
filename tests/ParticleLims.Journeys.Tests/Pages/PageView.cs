namespace ParticleLims.Journeys.Tests.Pages;

/// <summary>A screen to look at pages on.</summary>
/// <param name="Suffix">What stands behind a picture's name.</param>
/// <param name="Width">In pixels.</param>
/// <param name="Height">In pixels.</param>
/// <param name="Dark">Light letters on ink.</param>
public sealed record PageView(string Suffix, int Width, int Height, bool Dark)
{
    /// <summary>A bench terminal.</summary>
    public static readonly PageView Desk = new(string.Empty, 1280, 800, Dark: false);

    /// <summary>The same at night.</summary>
    public static readonly PageView DeskDark = new("-dark", 1280, 800, Dark: true);

    /// <summary>A phone.</summary>
    public static readonly PageView Phone = new("-phone", 390, 844, Dark: false);

    /// <summary>The same at night.</summary>
    public static readonly PageView PhoneDark = new("-phone-dark", 390, 844, Dark: true);
}
