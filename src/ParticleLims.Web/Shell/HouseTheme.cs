using MudBlazor;

namespace ParticleLims.Web.Shell;

/// <summary>The house's colours and letters: deep teal-blue and ochre on warm paper, or on ink.</summary>
internal static class HouseTheme
{
    private static readonly string[] Letters = ["Lato", "system-ui", "sans-serif"];

    public static MudTheme Theme { get; } = new()
    {
        PaletteLight = Light(),
        PaletteDark = Dark(),
        Typography = Type(),
        LayoutProperties = new LayoutProperties { DefaultBorderRadius = "4px", DrawerWidthLeft = "212px", AppbarHeight = "52px" },
    };

    private static PaletteLight Light() => new()
    {
        Primary = "#1F4E5F", PrimaryContrastText = "#FFFFFF", Secondary = "#8A5A12", SecondaryContrastText = "#FFFFFF", Tertiary = "#B7791F", TertiaryContrastText = "#1C2A31",
        Background = "#FAF8F4", BackgroundGray = "#F1EDE5", Surface = "#FFFFFF", AppbarBackground = "#1F4E5F", AppbarText = "#FFFFFF",
        DrawerBackground = "#F1EDE5", DrawerText = "#1C2A31", DrawerIcon = "#3E5561", TextPrimary = "#1C2A31", TextSecondary = "#4A5A63", TextDisabled = "#6B7780",
        ActionDefault = "#3E5561", ActionDisabled = "#7B868D", ActionDisabledBackground = "#E4DFD5", LinesDefault = "#D9D2C5", LinesInputs = "#7B868D", TableLines = "#E0DACE", TableHover = "#F1EDE5", Divider = "#D9D2C5",
        Success = "#2A6A3F", SuccessContrastText = "#FFFFFF", Warning = "#7F5300", WarningContrastText = "#FFFFFF", Error = "#A3281F", ErrorContrastText = "#FFFFFF", Info = "#1F5F8B", InfoContrastText = "#FFFFFF",
    };

    private static PaletteDark Dark() => new()
    {
        Primary = "#8CC3D6", PrimaryContrastText = "#10202A", Secondary = "#E2B159", SecondaryContrastText = "#1C1606", Tertiary = "#E2B159", TertiaryContrastText = "#1C1606",
        Background = "#14212A", BackgroundGray = "#10191F", Surface = "#1B2C37", AppbarBackground = "#0F1A21", AppbarText = "#E9EEF0",
        DrawerBackground = "#101B22", DrawerText = "#DCE4E7", DrawerIcon = "#A9BAC2", TextPrimary = "#E9EEF0", TextSecondary = "#B3C1C8", TextDisabled = "#84949C",
        ActionDefault = "#B3C1C8", ActionDisabled = "#7B8B93", ActionDisabledBackground = "#26363F", LinesDefault = "#33454F", LinesInputs = "#7F9099", TableLines = "#2C3D47", TableHover = "#22343F", Divider = "#33454F",
        Success = "#7CC894", SuccessContrastText = "#0D2114", Warning = "#E2B159", WarningContrastText = "#1C1606", Error = "#F2958C", ErrorContrastText = "#2A0B08", Info = "#8FC1E8", InfoContrastText = "#0B1D2B",
    };

    private static Typography Type() => new()
    {
        Default = new DefaultTypography { FontFamily = Letters, FontSize = "0.9375rem", LineHeight = "1.5", LetterSpacing = "0" },
        H1 = new H1Typography { FontFamily = Letters, FontSize = "1.625rem", FontWeight = "900", LineHeight = "1.25", LetterSpacing = "-0.005em" },
        H2 = new H2Typography { FontFamily = Letters, FontSize = "1.25rem", FontWeight = "700", LineHeight = "1.3", LetterSpacing = "0" },
        H3 = new H3Typography { FontFamily = Letters, FontSize = "1.0625rem", FontWeight = "700", LineHeight = "1.35", LetterSpacing = "0" },
        H6 = new H6Typography { FontFamily = Letters, FontSize = "1.0625rem", FontWeight = "700", LineHeight = "1.35", LetterSpacing = "0" },
        Body1 = new Body1Typography { FontFamily = Letters, FontSize = "0.9375rem", LineHeight = "1.5", LetterSpacing = "0" },
        Body2 = new Body2Typography { FontFamily = Letters, FontSize = "0.9375rem", LineHeight = "1.45", LetterSpacing = "0" },
        Button = new ButtonTypography { FontFamily = Letters, FontSize = "0.9375rem", FontWeight = "700", TextTransform = "none", LetterSpacing = "0" },
        Caption = new CaptionTypography { FontFamily = Letters, FontSize = "0.8125rem", LineHeight = "1.4", LetterSpacing = "0" },
    };
}
